"""Which controllers a keyboard fits on, and what stands in the way."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from matrixgen.boards import Profile
from matrixgen.boards.pin import FREE_COST
from matrixgen.fit.choice import Choice, choose
from matrixgen.fit.pins import dearest_cost, most_lines
from matrixgen.fit.shapes import Shape, Size
from matrixgen.model import Axis, Diagnostic
from matrixgen.record import Record
from matrixgen.source.limits import LIMITS

FitVerdict = Literal["fits", "fits with second duties", "fits if folded", "too few pins"]

OWN_COLUMN = frozenset({"pin-with-second-function"})
"""What the table says in a column of its own."""


class Candidate(Record, kw_only=True):
    """One controller: the matrix it would have, its pins, and what stands in the way.

    `size` is that of the matrix which `fit --write` takes there, or of the one with the fewest
    lines where none has pins enough; `verdict` is of the keyboard as it is, or else of that one;
    `on_free_pins` is a matrix that gives up no second duty, if there is one. `free` counts the pins
    that a line may end on with no second duty given up; `obstacles` is what `check` would find
    there.
    """

    profile: Profile
    size: Size
    pins: int
    free: int
    verdict: FitVerdict
    on_free_pins: Size | None
    obstacles: tuple[Diagnostic, ...]

    @property
    def lines(self) -> int:
        """How many pins it takes."""
        return sum(self.size)

    @property
    def spare(self) -> int:
        """How many pins are left; below zero where so many are missing."""
        return self.pins - self.lines


def choice_on(profiles: Sequence[Profile], shapes: Sequence[Shape], drive: Axis) -> Choice | None:
    """Return the matrix to take where each of some controllers is to have pins for it."""

    def cost_of(size: Size) -> int | None:
        if not can_be_written(size):
            return None
        costs = [dearest_cost(profile, *size, drive) for profile in profiles]
        known = [cost for cost in costs if cost is not None]
        return max(known, default=0) if len(known) == len(costs) else None

    return choose(shapes, cost_of)


def can_be_written(size: Size) -> bool:
    """Whether a file may have so many rows and columns."""
    return max(size) <= LIMITS.lines_per_axis


def candidate(
    profile: Profile,
    shapes: Sequence[Shape],
    choice: Choice | None,
    obstacles: Sequence[Diagnostic],
) -> Candidate:
    """Return how a keyboard fits on a controller; the first shape is the keyboard as it is."""
    on_free_pins = choice.on_free_pins if choice else None
    return Candidate(
        profile=profile,
        size=choice.shape.size if choice else min((one.size for one in shapes), key=sum),
        pins=most_lines(profile),
        free=sum(pin.use == "free" for pin in profile.usable_pins),
        verdict=_verdict(choice),
        on_free_pins=on_free_pins.size if on_free_pins else None,
        obstacles=tuple(found for found in obstacles if found.slug not in OWN_COLUMN),
    )


def _verdict(choice: Choice | None) -> FitVerdict:
    if choice is None:
        return "too few pins"
    if choice.cost_as_is is None:
        return "fits if folded"
    return "fits" if choice.cost_as_is <= FREE_COST else "fits with second duties"
