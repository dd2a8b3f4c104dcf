"""Layers that need each other in every way: what a check takes grows with them, and never doubles.

Steps are counted, not seconds: calls of functions, and generators that go on.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from matrixgen.jobs.examine import examine
from matrixgen.model.layer_states import MOST_STATES
from tests.amounts import in_turn

LAYERS = range(7, 32, 4)
"""Layers beside the base layer: up to all that a file may have (`grammar/README.md`)."""

TIMES = 4
"""How many times as many steps four more layers may take: less than what seven to eleven make of a
cube, while what doubles with a layer has sixteen times as many."""

MOST_STEPS = MOST_STATES * (LAYERS[-1] + 1) * 20
"""Steps of a check where keys turn on more sets of layers than are tried (a choice)."""


def before(number: int) -> range:
    return range(number)


def last_two(number: int) -> range:
    return range(max(0, number - 2), number)


def last_five(number: int) -> range:
    return range(max(0, number - 5), number)


def halves(number: int) -> list[int]:
    return [number // 2 - 1, number // 2] if number > 2 else []


def first_two(number: int) -> list[int]:
    return [0, 1]


def all_but_one(number: int) -> list[int]:
    return [one for one in range(number) if one != number // 2]


def all_others(number: int) -> list[int]:
    """Return a layer's needs for a circle in every way, which is an error."""
    return [one for one in range(LAYERS[-1]) if one != number]


SHAPES = {
    one.__name__: one
    for one in (before, last_two, last_five, halves, first_two, all_but_one, all_others)
}
TURNS = ("hold layer", "latch layer", "once layer", "change base to")


def file_of(shape: str, turn: str, layers: int, turned: int, *, gives_keys: bool) -> str:
    """Return a file of so many layers beside the base layer, the first of them turned on by keys.

    Each of the others needs those that the shape tells. The keys that turn layers on may have
    another action in each of them.
    """
    keys = [f"k{number}" for number in range(turned)]
    cells = [f"  {key} = {turn} layer{number}" for number, key in enumerate(keys)]
    text = ["plate", f"  line {' '.join(keys)} end", "", "layer base", *cells, "  end = A", ""]
    for number in range(layers):
        needed = [f"layer{one}" for one in SHAPES[shape](number) if one < layers]
        joint = number >= turned and len(needed) > 1
        while_ = f" while {' and '.join(needed)} are on" if joint else ""
        given = [f"  {key} = B" for key in keys] if gives_keys else []
        text += [f"layer layer{number}{while_}", *given, f"  end = {number % 10}", ""]
    return "\n".join(text)


FINDINGS = {
    "base-without-way-back",
    "hold-key-redefined",
    "latch-without-way-back",
    "layer-that-needs-itself",
    "unreachable-layer",
}


@contextmanager
def counted() -> Iterator[list[int]]:
    """Count the steps that are made meanwhile."""
    steps = [0]

    def step(frame: object, event: str, argument: object) -> None:
        steps[0] += event == "call"

    sys.setprofile(step)
    try:
        yield steps
    finally:
        sys.setprofile(None)


@pytest.fixture
def steps_of(tmp_path):
    """Return the steps that a check of a text takes."""

    def check(text: str) -> int:
        path = tmp_path / "pad.keys"
        path.write_text(text)
        with counted() as steps:
            slugs = {found.slug for found in examine(str(path)).findings}
        assert slugs <= FINDINGS
        return steps[0]

    return check


@pytest.mark.few(14)
@pytest.mark.parametrize("turn", TURNS)
@pytest.mark.parametrize("shape", SHAPES)
def test_steps_grow_with_layers_and_do_not_double(steps_of, shape, turn):
    steps: list[int] = []
    for layers in LAYERS:
        steps.append(steps_of(file_of(shape, turn, layers, 2, gives_keys=True)))
        assert steps[-1] <= TIMES * min(steps[-2:]), "more would take too long to count"


@pytest.mark.parametrize(("turn", "shape"), in_turn(TURNS, ["before", "halves"]))
def test_steps_have_a_bound_where_many_sets_of_layers_can_be_on(steps_of, shape, turn):
    text = file_of(shape, turn, LAYERS[-1], 16, gives_keys=False)
    assert steps_of(text) <= MOST_STEPS
