"""Labels in the margin: a wire's pin and name, and a thin line from there to the wire's end.

Nothing is drawn over them, and they touch neither each other nor a wire nor a key. Each is as wide
as its words are at most, and so is the margin.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import cos, dist, radians, sin
from typing import Literal, NamedTuple

from matrixgen.emit.sheet.font import ASCENT, DESCENT, width_of
from matrixgen.emit.sheet.frame import Frame
from matrixgen.emit.sheet.space import Space
from matrixgen.model.convex import Convex, convex
from matrixgen.model.geometry import Point
from matrixgen.record import Record
from matrixgen.routing.laid import LaidWires, WirePiece

SIZE_MM = 3.4
OUT_MM, GAP_MM, BETWEEN_MM = 4.0, 1.0, 0.4
"""How far outside of everything else labels begin, how far from their line, and from each other."""

TURN = -45
"""Degrees by which labels above and below the plate are turned, so that many have room there."""

STEP_MM, FARTHEST_STEPS = 1.2, 50
"""How far apart the places are that are tried, and how many to either side of the best one."""

LEADER_APART_MM = 0.8
"""How far a leader keeps off wires and leaders that run the same way."""

OTHER_SIDE_MM = 40.0
"""How much longer a leader may be before a column's label goes to the left or right, or a row's
above or below."""

Side = Literal["left", "right", "top", "bottom"]
SIDES: tuple[Side, ...] = ("left", "right", "top", "bottom")


class Label(Record, kw_only=True):
    """A label: its words, where they begin or end, their turn, its line and its outline."""

    text: str
    at: Point
    anchor: str
    turn: int
    leader: tuple[Point, ...]
    outline: Convex


class Wanted(NamedTuple):
    """What is to be labelled: the words, where, the number of its wire, and the better sides."""

    text: str
    at: Point
    wire: int
    sides: tuple[Side, ...]


class Margin:
    """The margin round a plate's back, filled label by label."""

    def __init__(self, inner: Frame, names: Space, laid: LaidWires) -> None:
        self.inner, self._names, self._laid = inner, names, laid
        self.labels: list[Label] = []

    def put(self, wanted: Wanted) -> None:
        """Put a label where its line is short and touches nothing that is to be read."""
        found: list[tuple[float, Label]] = []
        for side in sorted(SIDES, key=lambda one: one not in wanted.sides):
            more = OTHER_SIDE_MM * (side not in wanted.sides)
            least = min((cost for cost, _ in found), default=float("inf"))
            if label := self._on(side, wanted, least - more):
                found.append((_length(label.leader) + more, label))
        label = min(found, key=lambda one: one[0])[1] if found else self._anywhere(wanted)
        self.labels.append(label)
        self._laid.lay(label.leader, wanted.wire)

    def _on(self, side: Side, wanted: Wanted, least: float) -> Label | None:
        """Return the label at a side with the shortest line, if that is shorter than `least`."""
        for port in self._ports(side, wanted.at):
            if dist(wanted.at, port) >= least:
                return None
            bare = _label(side, port, wanted.text, ())
            if self._touches(bare.outline):
                continue
            for leader in _leaders(side, wanted.at, port):
                if self._may_lead(leader, wanted):
                    return _label(side, port, wanted.text, leader)
        return None

    def _anywhere(self, wanted: Wanted) -> Label:
        """Return a label on the right, below all others, with a line straight to it."""
        port = self.inner.right + OUT_MM, self.inner.top
        while self._touches(_label("right", port, wanted.text, ()).outline):
            port = port[0], port[1] + STEP_MM
        return _label("right", port, wanted.text, (wanted.at, port))

    def _ports(self, side: Side, at: Point) -> Iterator[Point]:
        """Yield where the line of a label at a side may end, the nearest place first."""
        inner = self.inner
        for number in range(2 * FARTHEST_STEPS):
            step = STEP_MM * (number + 1) // 2 * (-1) ** number
            if side in ("left", "right"):
                x = inner.left - OUT_MM if side == "left" else inner.right + OUT_MM
                yield x, at[1] + step
            else:
                y = inner.top - OUT_MM if side == "top" else inner.bottom + OUT_MM
                yield at[0] + step, y

    def _touches(self, outline: Convex) -> bool:
        """Whether a label would touch another one or the line of one."""
        return any(
            not _are_apart(outline, label.outline)
            or any(outline.is_crossed(*piece) for piece in pairwise(label.leader))
            for label in self.labels
        )

    def _may_lead(self, leader: Sequence[Point], wanted: Wanted) -> bool:
        """Whether a line touches no name, leg, joint or label, and lies beside all wires."""
        joints = leader[0], leader[-1]
        for start, end in pairwise(leader):
            if self._names.boxes_on(start, end, but=wanted.at):
                return False
            if any(label.outline.is_crossed(start, end) for label in self.labels):
                return False
            if self._laid.shared_mm(WirePiece(start, end, wanted.wire, joints), LEADER_APART_MM):
                return False
        return True


def outlines(labels: Iterable[Label]) -> Iterator[Point]:
    """Yield the corners of labels and of their lines."""
    for label in labels:
        yield from label.outline.corners
        yield from label.leader


def _label(side: Side, port: Point, text: str, leader: Sequence[Point]) -> Label:
    """Return a label at the end of a line."""
    is_upright = side in ("left", "right")
    turn = 0 if is_upright else TURN
    anchor = "start" if side in ("right", "top") else "end"
    way = 1 if anchor == "start" else -1
    right, down = cos(radians(turn)), sin(radians(turn))
    lower = SIZE_MM * 0.35
    at = (
        port[0] + way * GAP_MM * right - lower * down,
        port[1] + way * GAP_MM * down + lower * right,
    )
    long = way * width_of(text, SIZE_MM)
    around = BETWEEN_MM / 2
    low, high = sorted((0.0, long))
    corners = [
        (at[0] + along * right - off * down, at[1] + along * down + off * right)
        for along, off in (
            (low - around, -ASCENT * SIZE_MM - around),
            (high + around, -ASCENT * SIZE_MM - around),
            (high + around, DESCENT * SIZE_MM + around),
            (low - around, DESCENT * SIZE_MM + around),
        )
    ]
    return Label(
        text=text,
        at=at,
        anchor=anchor,
        turn=turn,
        leader=tuple(leader),
        outline=convex(corners),
    )


def _leaders(side: Side, at: Point, port: Point) -> Iterator[tuple[Point, ...]]:
    """Yield lines from a place to a port: aslant and then straight out, or straight to it."""
    (x, y), (u, v) = at, port
    aside = abs(v - y) if side in ("left", "right") else abs(u - x)
    outward = {"left": -1, "right": 1, "top": -1, "bottom": 1}[side]
    if side in ("left", "right"):
        bend = x + outward * aside, v
        is_before = outward * (u - bend[0]) > 0
    else:
        bend = u, y + outward * aside
        is_before = outward * (v - bend[1]) > 0
    if aside == 0:
        yield at, port
        return
    if is_before:
        yield at, bend, port
        yield at, ((u, y) if side in ("top", "bottom") else (x, v)), port
    yield at, port


def _are_apart(one: Convex, other: Convex) -> bool:
    """Whether a side of one of two shapes has all of the other one beyond it."""
    return any(
        all(x * u + y * v > out for x, y in shape.corners)
        for sides, shape in ((one.sides, other), (other.sides, one))
        for u, v, out in sides
    )


def _length(leader: Sequence[Point]) -> float:
    return sum(dist(one, other) for one, other in pairwise(leader))
