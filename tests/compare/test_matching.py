"""Which key is which: by place and wires rather than by name, and told where it is a guess."""

from __future__ import annotations

from random import Random

import pytest

from matrixgen.model.layers import BASE
from tests.compare.pads import Pad, random_pad
from tests.compare.truth import compare_texts
from tests.examples.shipped import FOLDER, NAMES
from tests.texts import edited

PAIR = """\
keyboard "Pad"
  controller atmega32u4

plate
  line A B C

wiring
  diodes 1N4148, band toward columns
  row r0 on PB0 A B C
  column c0 on PB1 A
  column c1 on PB2 B
  column c2 on PB3 C
"""


def swapped(text: str, one: str, other: str) -> str:
    words = {one: other, other: one}
    lines = text.splitlines(keepends=True)
    return "".join(
        " ".join(words.get(word, word) for word in line.rstrip("\n").split(" ")) + "\n"
        for line in lines
    )


def test_keys_that_exchange_their_names_stay_where_they_are():
    found = compare_texts(PAIR, swapped(PAIR, "A", "B"))
    assert found.kind == "reflash"
    assert found.edits.renames.keys == {"A": "B", "B": "A"}
    assert {change.slug for change in found.changes} == {"key-names-exchanged", "key-on-layer"}
    assert found.headline == "reflash only: 2 keys on layer base"


def test_wires_that_exchange_their_names_stay_where_they_are():
    found = compare_texts(PAIR, swapped(PAIR, "c0", "c1"))
    assert found.edits.renames.lines == {"c0": "c1", "c1": "c0"}
    assert found.of_kind("solder") == []


LAYERED = (
    PAIR
    + """
layer base
  A = hold layer nav
  B = hold layer sym

layer nav
  A = Left  B = Right  C = hold layer sym

layer sym
  A = 1  B = 2

layer fn
  A = F1  B = F2
"""
)


def test_layers_that_exchange_their_names_wherever_they_stand_are_one_change():
    found = compare_texts(LAYERED, swapped(LAYERED, "nav", "sym"))
    assert [change.text for change in found.changes] == [
        "layers `nav` and `sym` have exchanged their names"
    ]
    assert found.kind == "cosmetic"


def test_what_still_names_them_as_before_is_told_besides():
    other = LAYERED.replace("\nlayer nav", "\nlayer x").replace("\nlayer sym", "\nlayer nav")
    found = compare_texts(LAYERED, other.replace("\nlayer x", "\nlayer sym"))
    assert [change.slug for change in found.changes] == [
        *["key-on-layer"] * 3,
        "layer-names-exchanged",
    ]


def test_three_layers_whose_names_go_round_are_renamed():
    other = swapped(swapped(LAYERED, "nav", "sym"), "nav", "fn")
    found = compare_texts(LAYERED, other)
    assert found.edits.renames.layers == {"nav": "sym", "sym": "fn", "fn": "nav"}
    assert {change.slug for change in found.changes} == {"layer-renamed"}


def test_two_cells_exchanged_are_no_names_exchanged_if_more_names_would_have_changed():
    old = LAYERED.replace("  A = Left  B = Right  C = hold layer sym", "  A = Left")
    old = old.replace("  A = 1  B = 2", "  A = 1")
    other = old.replace("= Left", "= x").replace("= 1\n", "= Left\n").replace("= x", "= 1")
    found = compare_texts(old, other)
    assert [change.slug for change in found.changes] == ["key-on-layer"] * 2


def test_keys_whose_switches_are_exchanged_with_their_wires_are_only_named_otherwise():
    other = PAIR.replace("line A B C", "line C B A").replace("PB0 A B C", "PB0 C B A")
    other = other.replace("PB1 A", "PB1 C").replace("PB3 C", "PB3 A")
    assert compare_texts(PAIR, other).edits.renames.keys == {"A": "C", "C": "A"}


def test_a_key_that_is_moved_and_wired_elsewhere_is_found_by_its_name():
    pairs = [
        ("line A B C", "line A B ~4 C"),
        ("row r0 on PB0 A B C", "row r0 on PB0 A B"),
        ("  column c2 on PB3 C\n", "  row r1 on PB4 C\n  column c2 on PB3 C\n"),
        ("column c1 on PB2 B", "column c9 on PB2 B"),
    ]
    found = compare_texts(PAIR, edited(PAIR, pairs))
    assert found.edits.gone.keys == frozenset()
    assert {"keys-moved", "wire-added"} <= {change.slug for change in found.changes}


def test_every_key_renamed_at_once_is_no_other_keyboard():
    chance = Random(5)
    pad = random_pad(chance)
    names = {key: f"k-{number}" for number, key in enumerate(pad.keys)}
    new = pad.copy()
    new.keys = {names[key]: place for key, place in pad.keys.items()}
    for wire in new.wires:
        wire.visits = [names[key] for key in wire.visits]
    new.layers = {
        layer: {names[key]: said for key, said in cells.items()}
        for layer, cells in pad.layers.items()
    }
    new.layers[BASE] |= {names[key]: key for key in pad.keys if key not in pad.layers[BASE]}
    found = compare_texts(pad.text, new.text)
    assert found.kind == "cosmetic"
    assert found.edits.renames.keys == names
    assert not found.matches.are_strangers


def test_two_keyboards_are_told_to_be_two():
    texts = [
        (FOLDER / name / f"{name}.keys").read_text("utf-8") for name in ("heron-12", "knot-21")
    ]
    found = compare_texts(*texts)
    assert found.matches.are_strangers
    assert len(found.edits.gone.keys) > 10


@pytest.mark.parametrize("name", NAMES)
def test_a_file_is_the_same_as_itself_and_differs_in_every_kind_from_nothing(name):
    text = (FOLDER / name / f"{name}.keys").read_text("utf-8")
    assert compare_texts(text, text).changes == ()
    assert compare_texts(text, f"# more\n{text}").headline == "cosmetic only: 1 comment"
    spaced = text.replace("wiring\n", "wiring\n\n")
    assert compare_texts(text, spaced).headline == "cosmetic only: 1 way to write it"


def test_of_two_keys_that_are_as_like_one_is_guessed():
    """Two keys gone, one new one that is on the place of the one and the wires of the other."""
    old = PAIR
    new = PAIR.replace("line A B C", "line A N").replace("A B C", "A N")
    new = new.replace("  column c1 on PB2 B\n", "").replace("c2 on PB3 C", "c2 on PB3 N")
    found = compare_texts(old, new)
    renamed = [change for change in found.changes if change.slug == "key-renamed"]
    assert [change.is_guess for change in renamed] == [True]


def test_a_pad_without_a_controller_can_be_compared():
    pad = Pad(
        keys={"A": (0.0, 0.0, 1.0, 0), "B": (1.0, 0.0, 1.0, 1)},
        wires=[],
        layers={"base": {}},
        actions={},
    )
    text = pad.text.replace("  controller atmega32u4\n", "").replace("actions\n", "")
    text = text.replace("layer base\n", "")
    assert compare_texts(text, text.replace("at 1, 0", "at 2, 0")).headline == "solder: 1 key moved"
