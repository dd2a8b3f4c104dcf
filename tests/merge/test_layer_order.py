"""Layers whose order only the merge decides are told; those that a side put in order are not."""

from __future__ import annotations

import random
from itertools import permutations

import pytest

from matrixgen.merge import merge
from tests.merge.test_cases import BASE, edited

ADD = "~ 5 6   # row two\n"


def layers(*names: str) -> str:
    """The pad with these layers, each of which has something of its own."""
    cells = [f"layer {name}\n  A = F{ord(name) % 12 + 1}\n  B = {name.upper()}\n" for name in names]
    return "\n".join([edited(("hold layer nav", "Tab")).partition("\nlayer nav")[0], *cells])


def with_layer(name: str, key: str) -> str:
    return edited((ADD, f"{ADD}\nlayer {name}\n  K2 = {key}\n"))


def chosen(base: str, ours: str, theirs: str) -> tuple[str, ...]:
    merged = merge(base, ours, theirs)
    assert merged is not None
    return merged.layers_put_in_order


def test_two_layers_at_one_place_are_told_the_highest_first():
    merged = merge(BASE, with_layer("sym", "1"), with_layer("num", "2"))
    assert merged is not None and not merged.conflicts
    assert merged.text.index("layer sym") < merged.text.index("layer num")
    assert merged.layers_put_in_order == ("num", "sym")


CASES = {
    "one side alone": (("a",), ("a", "b", "c"), ("a",), ()),
    "the same layer on both sides": (("a",), ("a", "b"), ("a", "b"), ()),
    "apart, with one of both between": (("a",), ("x", "a"), ("a", "y"), ()),
    "one moved, the other as it was": (("a", "b", "c"), ("c", "a", "b"), ("a", "b", "c"), ()),
    "two on one side, one on the other": (("a",), ("a", "x", "z"), ("a", "y"), ("y", "z", "x")),
    "below the same": (("a",), ("x", "a"), ("y", "a"), ("y", "x")),
    "two alike in another order": ((), ("x", "y"), ("y", "x"), ("y", "x")),
    "a new one between two that change places": (
        ("a", "b"),
        ("b", "a"),
        ("a", "x", "b"),
        ("x", "b"),
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_only_what_no_side_decides_is_told(name):
    base, ours, theirs, told = CASES[name]
    assert chosen(layers(*base), layers(*ours), layers(*theirs)) == told


def orders(side: tuple[str, ...]) -> set[tuple[str, str]]:
    return {(one, other) for place, one in enumerate(side) for other in side[place + 1 :]}


@pytest.mark.parametrize("seed", range(4))
def test_as_many_orders_are_as_good_as_is_told(seed):
    """Where both only add layers: told are those that stand otherwise in another order of all
    layers, which has each side's order too. The orders are found by trying all of them."""
    chance = random.Random(seed)
    for _ in range(20):
        base = tuple("ab"[: chance.randint(0, 2)])
        sides = []
        for new in ("pq", "xyz"):
            side = [*base]
            for name in new[: chance.randint(0, len(new))]:
                side.insert(chance.randint(0, len(side)), name)
            sides.append(tuple(side))
        wanted = orders(sides[0]) | orders(sides[1])
        every = dict.fromkeys((*sides[0], *sides[1]))
        good = [orders(one) for one in permutations(every) if wanted <= orders(one)]
        free = set.union(*good) - set.intersection(*good)
        expected = {name for pair in free for name in pair}
        assert set(chosen(layers(*base), *(layers(*side) for side in sides))) == expected


def merged_by(program, ours: str, theirs: str):
    texts = {"base": BASE, "ours": ours, "theirs": theirs}
    names = [program.write(name, text) for name, text in texts.items()]
    return program("merge", *names, "--path", "pad.keys")


def test_the_command_says_it_in_a_line_and_exits_with_0(program):
    ran = merged_by(program, with_layer("sym", "1"), with_layer("num", "2"))
    assert ran.status == 0
    assert ran.err == (
        "pad.keys: neither side decides how these layers lie: now `num` above `sym`; "
        "move their blocks to change it\n"
    )


def test_a_conflict_does_not_hide_it(program):
    ours, theirs = (
        with_layer(name, number).replace("K3 = Esc", f"K3 = F{number}")
        for name, number in (("sym", "1"), ("num", "2"))
    )
    ran = merged_by(program, ours, theirs)
    assert ran.status == 1
    said = ran.err.splitlines()
    assert "now `num` above `sym`" in said[0] and ": conflict: " in said[1]
