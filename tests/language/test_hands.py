"""Which hand a key belongs to: small plates, and the examples."""

from pathlib import Path

import pytest

from matrixgen.model.hands import hands_of, same_hand
from tests.language.whole import completed
from tests.texts import keyboard_in

ROOT = Path(__file__).parents[2]
SIGNS = {"left": "<", "right": ">", None: "="}

PLATES = {
    "an even line": ("  line A B C D\n", "A< B< C> D>"),
    "an odd line has a key in the middle": ("  line A B C D E\n", "A< B< C= D> E>"),
    "one key": ("  line A\n", "A="),
    "a long bar over the middle": ("  line A B C D\n  line E:2.5 F:1.5\n", "A< B< C> D> E= F>"),
    "a wide key beside the middle": ("  line A:2 B:2\n", "A< B>"),
    "a gap off the middle": ("  line A B C ~1 D E\n", "A< B< C< D> E>"),
    "the widest of two gaps": ("  line A B ~0.5 C D ~1 E F\n", "A< B< C< D< E> F>"),
    "a small gap": ("  line A B ~0.25 C D E\n", "A< B< C= D> E>"),
    "a gap far from the middle": ("  line A ~1 B C D E F G H\n", "A< B< C< D= E> F> G> H>"),
    "each line by itself": (
        "  line A B ~2 C D\n  line in 0.5 E F ~2 G\n",
        "A< B< C> D> E< F< G>",
    ),
    "a staggered line": ("  line A B C D\n  line in 0.25 E F G H\n", "A< B< C= D> E< F= G> H>"),
    "two clusters": (
        "  cluster l at 0, 0\n    line A B\n  cluster r at 2, 0\n    line C D E\n",
        "A< B< C> D> E>",
    ),
    "clusters that are turned": (
        "  cluster l at 0, 0 turned 20\n    line A B C\n"
        "  cluster r mirrors l about 4\n    line D E F\n",
        "A< B< C< D> E> F>",
    ),
    "a cluster in the middle is taken line by line": (
        "  cluster l at 0, 0\n    line A B\n  cluster m at 2, 0\n    line C D E\n"
        "  cluster r at 5, 0\n    line F G\n",
        "A< B< C< D= E> F> G>",
    ),
    "lines besides the clusters": (
        "  line A B C D E F\n  cluster l at 1, 1\n    line G\n  cluster r at 4, 1\n    line H\n",
        "A< B< C< D> E> F> G< H>",
    ),
}


def hands(text):
    return hands_of(keyboard_in(text).plate)


def told(plate):
    names = [name for name in "ABCDEFGH" if f" {name}" in plate]
    wiring = f"wiring\n  row r0 {' '.join(names)}\n"
    found = hands(completed(f"plate\n{plate}\n{wiring}"))
    return " ".join(f"{name}{SIGNS[found[name]]}" for name in names)


@pytest.mark.parametrize(("plate", "expected"), PLATES.values(), ids=PLATES)
def test_the_hand_of_each_key_of_a_plate(plate, expected):
    assert told(plate) == expected


EXAMPLES = {
    "avocet-42": ("Tab Q T LeftShift B Space.left Low", "Y N P RightShift Space.right AltGr", ""),
    "dunlin-48": ("Esc T G B Space.left Numbers", "Y H N Space.right Signs", ""),
    "godwit-46": ("Q T G V LeftCtrl", "U J N Space.right", "Y H B Space.left"),
    "heron-12": ("7 4 1 Shift", "9 6 3 Enter", "8 5 2 0"),
}


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_hands_of_an_example(name):
    found = hands((ROOT / "examples" / name / f"{name}.keys").read_text("utf-8"))
    for side, names in zip(("left", "right", None), EXAMPLES[name], strict=True):
        assert {key: found[key] for key in names.split()} == dict.fromkeys(names.split(), side)


def test_a_key_of_neither_hand_is_the_other_hand_to_both():
    assert same_hand("left", "left")
    assert not same_hand("left", "right")
    assert not same_hand("left", None)
    assert not same_hand(None, None)
