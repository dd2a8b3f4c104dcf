"""# keys that overlap

## What it does
Finds keys whose outlines on the plate cover the same spot, rotated clusters included.

## Why it matters
Two switches cannot sit there. Often a tall key reaches into the next line, which needs a gap under
it, or two clusters are turned into each other.

## Example
```keys
plate
  line A:1x2 B
  line C
```

## Do instead
```keys
plate
  line A:1x2 B
  line ~1 C
```

## Reference
Outlines are in key units, 19.05 mm (common practice, no source); less than 0.02 of one is taken for
rounding.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, floor, radians, sin

from matrixgen.model import Diagnostic, Key, Note, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("keys-overlap", Severity.WARNING, __doc__ or "")


ROUNDING = 0.02
"""Key units that outlines may share unreported: the figures of a cluster are rounded."""

Point = tuple[float, float]


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each key that covers part of an earlier one, once."""
    earlier: dict[tuple[int, int], list[Outline]] = {}
    outlines = [Outline(key) for key in context.keyboard.keys]
    size = max([2.0, *(outline.extent / 8 for outline in outlines)])
    for outline in outlines:
        cells = list(outline.grid_cells(size))
        near = {id(o): o for cell in cells for o in earlier.get(cell, ())}
        covered = next((other for other in near.values() if outline.overlaps(other)), None)
        if covered:
            yield _finding(outline.key, covered.key)
        for cell in cells:
            earlier.setdefault(cell, []).append(outline)


def _finding(key: Key, covered: Key) -> Diagnostic:
    return PROBLEM.at(
        key.name.span,
        f"`{key.name}` overlaps `{covered.name}` on the plate",
        help="move one of them: `~1` leaves a gap, and `in` and `down` shift a whole line",
        notes=[Note(f"`{covered.name}` is here", covered.name.span)],
    )


class Outline:
    """A key's four corners on the plate, in key units, and its upright bounding box."""

    def __init__(self, key: Key) -> None:
        self.key = key
        self.corners = corners(key)
        self.left, self.right = _range([x for x, _ in self.corners])
        self.top, self.bottom = _range([y for _, y in self.corners])

    @property
    def extent(self) -> float:
        """The longer side of the bounding box."""
        return max(self.right - self.left, self.bottom - self.top)

    def grid_cells(self, size: float) -> Iterator[tuple[int, int]]:
        """Yield the squares of a grid that the bounding box touches."""
        for x in range(floor(self.left / size), floor(self.right / size) + 1):
            for y in range(floor(self.top / size), floor(self.bottom / size) + 1):
                yield x, y

    def may_overlap(self, other: Outline) -> bool:
        """Whether the bounding boxes overlap: quick, and false for most neighbours."""
        return (
            min(self.right, other.right) - max(self.left, other.left) > ROUNDING
            and min(self.bottom, other.bottom) - max(self.top, other.top) > ROUNDING
        )

    def shadow(self, axis: Point) -> tuple[float, float]:
        """Return the stretch that the outline covers along an axis of length 1."""
        return _range([x * axis[0] + y * axis[1] for x, y in self.corners])

    def overlaps(self, other: Outline) -> bool:
        """Whether no straight line separates the two: the separating axis theorem, on 4 axes."""
        if not self.may_overlap(other):
            return False
        for key in (self.key, other.key):
            angle = radians(key.turned)
            for axis in ((cos(angle), sin(angle)), (-sin(angle), cos(angle))):
                low, high = self.shadow(axis)
                other_low, other_high = other.shadow(axis)
                if min(high, other_high) - max(low, other_low) <= ROUNDING:
                    return False
        return True


def corners(key: Key) -> list[Point]:
    """Return a key's corners, turned clockwise about its pivot; y grows downwards."""
    upright = [
        (key.x, key.y),
        (key.x + key.width, key.y),
        (key.x + key.width, key.y + key.height),
        (key.x, key.y + key.height),
    ]
    if not key.turned:
        return upright
    cosine, sine = cos(radians(key.turned)), sin(radians(key.turned))
    offsets = [(x - key.pivot_x, y - key.pivot_y) for x, y in upright]
    return [
        (key.pivot_x + x * cosine - y * sine, key.pivot_y + x * sine + y * cosine)
        for x, y in offsets
    ]


def _range(values: list[float]) -> tuple[float, float]:
    return min(values), max(values)
