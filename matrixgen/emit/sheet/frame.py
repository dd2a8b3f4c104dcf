"""The paper that both pictures of a plate are drawn on, in millimetres."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import ceil

from matrixgen.model import Key, Keyboard, Plate
from matrixgen.model.geometry import Point, corners_of
from matrixgen.model.knob_keys import knob_keys
from matrixgen.model.plate import CornerOutline
from matrixgen.model.switch import UNIT_MM
from matrixgen.plate.openings import housings_of
from matrixgen.plate.outline import flat, outline_of
from matrixgen.record import Record

PAPER_MM, PAPER_HIGH_MM = 255.0, 140.0
"""What A4 and Letter, lying, both have room for between margins of 12 mm: across, and below a
heading and above a caption."""


class Frame(Record, kw_only=True):
    """The plate's extent, seen from the front: the least and largest x and y."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """How wide the plate is."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """How high the plate is."""
        return self.bottom - self.top

    def mirrored(self) -> Frame:
        """Return the frame as it is from behind."""
        return Frame(left=-self.right, top=self.top, right=-self.left, bottom=self.bottom)

    def box(self, beside: float, above: float, below: float) -> Box:
        """Return the picture's box with room at both sides, above and below."""
        return Box(
            x=self.left - beside,
            y=self.top - above,
            width=self.width + 2 * beside,
            height=self.height + above + below,
        )


class Box(Record, kw_only=True):
    """A picture's outer box."""

    x: float
    y: float
    width: float
    height: float

    @property
    def scale(self) -> float:
        """How many times smaller than it is it has to be printed to fit on the paper: tenths."""
        most = max(self.width / PAPER_MM, self.height / PAPER_HIGH_MM)
        return max(1.0, ceil(most * 10) / 10)

    @property
    def view(self) -> str:
        """The box as an SVG's `viewBox`."""
        return " ".join(map(number, (self.x, self.y, self.width, self.height)))


def frame_of(plate: Plate) -> Frame:
    """Return the extent of all keys, holes, areas to keep clear, and an outline with corners."""
    points = [
        (x * UNIT_MM, y * UNIT_MM)
        for corners in (
            *map(corners_of, plate.keys),
            *(
                ((one.x, one.y), (one.x + one.width, one.y + one.height))
                for one in plate.keep_clear
            ),
        )
        for x, y in corners
    ]
    round_ones = [((one.x, one.y), one.screw.head_mm / 2) for one in plate.holes]
    round_ones += [((one.x, one.y), one.size.room_mm / 2) for one in plate.components]
    for (x, y), half in round_ones:
        points += [(x * UNIT_MM + way * half, y * UNIT_MM + way * half) for way in (-1, 1)]
    points += edge_of(plate)
    xs, ys = zip(*points, strict=True) if points else ((0.0,), (0.0,))
    return Frame(left=min(xs), top=min(ys), right=max(xs), bottom=max(ys))


def housing_shapes(plate: Plate, *, from_behind: bool = False) -> dict[str, tuple[str, ...]]:
    """Return the cut-outs of stabilisers as they are drawn, by the names of their keys."""
    found: dict[str, tuple[str, ...]] = {}
    for one in housings_of(plate):
        corners = mirrored(one.corners) if from_behind else one.corners
        found[one.key] = (*found.get(one.key, ()), polyline(corners))
    return found


def edge_of(plate: Plate) -> list[Point]:
    """Return the places along an outline with corners; none of another, which goes round all."""
    return flat(outline_of(plate)) if isinstance(plate.outline, CornerOutline) else []


def number(value: float) -> str:
    """Return a number of millimetres with two decimals at most."""
    return f"{value:.2f}".rstrip("0").rstrip(".").replace("-0", "0", value == 0) or "0"


def place(point: Point) -> str:
    """Return a point as SVG has it."""
    return f"{number(point[0])},{number(point[1])}"


def polyline(points: Iterable[Point]) -> str:
    """Return points as SVG has them."""
    return " ".join(map(place, points))


def mirrored(points: Sequence[Point]) -> tuple[Point, ...]:
    """Return points as they lie from behind."""
    return tuple((-x, y) for x, y in points)


def with_switches(keyboard: Keyboard) -> tuple[Key, ...]:
    """Return the keys that have a switch and a keycap of their own, not those of knobs."""
    of_knobs = knob_keys(keyboard.plate)
    return tuple(key for key in keyboard.keys if key.name.text not in of_knobs)


def size_of(key: Key) -> str:
    """Return a key's size in key units: how wide it is, and how high if that is not one."""
    return number(key.width) + (f" × {number(key.height)}" if key.height != 1 else "")
