"""How fast a pointer or a wheel goes: a curve of speed, and what of it a millisecond adds.

The speed grows evenly from a start to a most within a time, and stays there. The distance is its
integral, exactly: each millisecond adds whole parts of a step, `UNIT` of which are one, and the
rest is carried. A way along two axes at once has the same speed, so each has 1/sqrt(2) of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import isqrt

from matrixgen.model.text import Number
from matrixgen.record import Record

LARGEST_UNIT = 1 << 27
"""Parts of a step, at most: five steps in a millisecond and a rest stay below 32 bits."""


class Speed(Record):
    """Steps a second at the start, at most, and the milliseconds from the one to the other."""

    start: int
    most: int
    within_ms: int

    @property
    def curve(self) -> Curve:
        """What each millisecond adds."""
        parts = 2000 * self.within_ms
        scale = LARGEST_UNIT // parts
        more = self.most - self.start
        return Curve(
            unit=scale * parts,
            start=scale * (2 * self.start * self.within_ms + more),
            grow=scale * 2 * more,
            most=scale * 2 * self.most * self.within_ms,
        )


class Curve(Record):
    """Parts of a step, `unit` for a whole one, that a millisecond adds.

    `start` of them in the first one, `grow` more in each next one, and `most` at most.
    """

    unit: int
    start: int
    grow: int
    most: int

    @property
    def diagonal(self) -> Curve:
        """The same along each of two axes: rounded to the next part, one of a hundred million."""
        parts = (_by_root_of_two(one) for one in (self.start, self.grow, self.most))
        return Curve(self.unit, *parts)


def _by_root_of_two(parts: int) -> int:
    return (isqrt(2 * parts * parts) + 1) // 2


POINTER_SPEED = Speed(40, 1000, 800)
"""Unless the file says it: a tap of 80 ms is some 4 steps, and a screen 1,920 steps wide takes
some 2.3 s (a choice)."""

WHEEL_SPEED = Speed(8, 30, 1000)
"""Unless the file says it: a tap of less than 125 ms is one step, which most programs scroll by
three lines (a choice)."""


def speed_of(said: Sequence[Number], default: Speed) -> Speed:
    """Return what a file says: nothing, one speed, or two and a time."""
    numbers = [int(number.value) for number in said]
    if len(numbers) == 1:
        return Speed(numbers[0], numbers[0], 1)
    return Speed(*numbers) if numbers else default
