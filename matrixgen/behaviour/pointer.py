"""A pointer and its wheels: what keys move, and the reports of it (HID 1.11 appendix B.2).

A key moves from when its press is done to when its release is: one step at once, and then along
the curve of `model/speeds.py`, millisecond by millisecond. Two keys of opposite ways cancel each
other. A pair of axes, the pointer's two or the wheels' two, has one speed, which begins anew where
neither was moving; where both are, the way along them has that speed. What the computer has not
taken waits: at most 127 steps an axis, of which opposite ones cancel.

A report that only moves is given whenever there is room for one, and no key waits for it. Buttons
are told as other keys are, one change at a time.
"""

from __future__ import annotations

from collections.abc import Iterable, Set
from dataclasses import dataclass, field

from matrixgen.model import Pointer
from matrixgen.model.speeds import Curve, Speed

REPORT = 4
MOST_DUE = 127
MOST_PASSED_MS = 100
"""What the keyboard did not see for longer, as while it slept, moves nothing for longer."""

CLOCK = 1 << 16


@dataclass
class MovingAxis:
    """Which way it moves, the parts of a step that it has done, and the steps that wait."""

    way: int = 0
    rest: int = 0
    due: int = 0

    def add(self, steps: int) -> None:
        """Let so many steps wait, as far as there is room."""
        self.due = max(-MOST_DUE, min(MOST_DUE, self.due + steps))

    def turn(self, way: int) -> None:
        """Move another way from now on; a way begins with a step."""
        if way != self.way:
            self.way, self.rest = way, 0
            self.add(way)


@dataclass
class Pair:
    """Two axes that share a speed, and for how long they have been moving."""

    curve: Curve
    axes: tuple[MovingAxis, MovingAxis] = field(
        default_factory=lambda: (MovingAxis(), MovingAxis())
    )
    moving_ms: int = 0

    def turn(self, ways: Iterable[int]) -> None:
        """Move these ways from now on."""
        if not any(axis.way for axis in self.axes):
            self.moving_ms = 0
        for axis, way in zip(self.axes, ways, strict=True):
            axis.turn(way)

    def pass_millisecond(self) -> None:
        """Move for a millisecond."""
        moving = [axis for axis in self.axes if axis.way]
        curve = self.curve.diagonal if len(moving) > 1 else self.curve
        for axis in moving:
            parts = min(curve.start + curve.grow * self.moving_ms, curve.most)
            steps, axis.rest = divmod(axis.rest + parts, curve.unit)
            axis.add(steps * axis.way)
        self.moving_ms += bool(moving)


class PointerReports:
    """What the pointer's keys that are down do, and what the host has been told of it.

    `only_moves` is whether the last report of its interface only moved the pointer; `changed`
    whether something there went down or up since the last one that told of that.
    """

    def __init__(self, speeds: tuple[Speed, Speed]) -> None:
        self.pairs = tuple(Pair(speed.curve) for speed in speeds)
        self.buttons = self.told = 0
        self.seen_ms = 0
        self.doubtful = True
        self.only_moves = self.changed = False

    @property
    def axes(self) -> list[MovingAxis]:
        """Those of both pairs, in the order of the report."""
        return [axis for pair in self.pairs for axis in pair.axes]

    def hold(self, down: Set[Pointer]) -> None:
        """Let these keys be down from now on."""
        buttons = sum(1 << one.usage - 1 for one in down if one.is_button)
        self.changed |= buttons != self.buttons
        self.buttons = buttons
        ways = [0, 0, 0, 0]
        for one in down:
            if not one.is_button:
                ways[one.axis] += one.way
        for pair, two in zip(self.pairs, (ways[:2], ways[2:]), strict=True):
            pair.turn(two)

    def pass_time(self, now_ms: int) -> None:
        """Move until now."""
        passed, self.seen_ms = (now_ms - self.seen_ms) % CLOCK, now_ms
        for _ in range(min(passed, MOST_PASSED_MS)):
            for pair in self.pairs:
                pair.pass_millisecond()

    @property
    def is_news(self) -> bool:
        """Whether the host has to be told of the buttons."""
        if self.doubtful:
            return bool(self.buttons or self.told)
        return self.buttons != self.told

    @property
    def moves(self) -> bool:
        """Whether a report that only moves is due, and nothing else has to be told first."""
        is_in_order = not (self.doubtful or self.changed or self.is_news)
        return is_in_order and any(axis.due for axis in self.axes)

    def give(self, *, only_moves: bool) -> bytes:
        """Return a report of the buttons and of all that is due; the host is told of both."""
        self.only_moves, self.changed, self.told = only_moves, False, self.buttons
        due = [axis.due for axis in self.axes]
        self.drop()
        return bytes([REPORT, self.buttons, *(steps & 0xFF for steps in due)])

    def drop(self) -> None:
        """Let nothing wait."""
        for axis in self.axes:
            axis.due = 0

    def not_heard(self) -> None:
        """Nobody listens: what moved is lost, and what was told may be forgotten."""
        self.doubtful, self.changed = True, False
        self.drop()
