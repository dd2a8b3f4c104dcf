"""Lines in a frame of upright keys: what is written in each, for its middles to come out right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.drawing.bands import bands_of
from matrixgen.drawing.decimals import near, shortest
from matrixgen.drawing.widths import widths_of
from matrixgen.model.geometry import Point
from matrixgen.model.switch import UNIT_MM
from matrixgen.model.tiles import Tiles
from matrixgen.record import Record

TOLERANCE = 0.012 / UNIT_MM
"""Key units by which x and y of a middle may each be off: 0.017 mm together, of the 0.02."""

SPREAD = 1.8 * TOLERANCE
"""How much the middles of one line may differ in y."""


class RowKey(Record):
    """A key as a line writes it: the gap before it, its width and its height, in key units."""

    gap: float
    width: float
    height: float


class KeyRow(Record):
    """A `line`: how far it goes `in` and `down`, and its keys from the left."""

    indent: float
    drop: float
    keys: tuple[RowKey, ...]


def rows_of(middles: Sequence[Point], *, may_widen: bool) -> list[KeyRow]:
    """Return the lines whose keys have these middles, from the frame's corner, in key units.

    With `may_widen`, a key that has room on both sides may become a wider one. Where keys are
    nearer than a key unit they become narrower or lower.
    """
    sizes = _room_of(middles)
    rows, expected = [], 0.0
    for band in bands_of(middles, SPREAD):
        lines = list(_level(band))
        for line in lines:
            height = min(sizes[middle][1] for middle in line)
            low, high = max(y for _, y in line) - TOLERANCE, min(y for _, y in line) + TOLERANCE
            drop = shortest(low - height / 2 - expected, high - height / 2 - expected)
            expected += drop + 1
            xs, widths = [x for x, _ in line], [sizes[middle][0] for middle in line]
            widths = widths_of(xs, widths) if may_widen and len(lines) == 1 else widths
            rows.append(_row(xs, widths, height, drop))
    return rows


def _row(middles: Sequence[float], widths: Sequence[float], height: float, drop: float) -> KeyRow:
    """Return a line; what is rounded in one gap is made up for in the next."""
    cursor, indent, keys = 0.0, 0.0, list[RowKey]()
    for middle, wanted in zip(middles, widths, strict=True):
        gap, width = near(middle - wanted / 2 - cursor, TOLERANCE), wanted
        if gap < 0 and keys:  # a little too near, as in a drawing of few decimals
            gap, width = 0.0, near(2 * (middle - cursor), 2 * TOLERANCE)
        cursor += gap + width
        indent = indent if keys else gap
        keys.append(RowKey(gap if keys else 0.0, width, height))
    return KeyRow(indent, drop, tuple(keys))


def _level(band: Sequence[Point]) -> Iterator[list[Point]]:
    """Yield the stretches of a band that are level, from the left; each is one line."""
    line: list[Point] = []
    for middle in band:
        ys = [y for _, y in (*line, middle)]
        if line and max(ys) - min(ys) > SPREAD:
            yield line
            line = []
        line.append(middle)
    if line:
        yield line


def _room_of(middles: Sequence[Point]) -> dict[Point, list[float]]:
    """Return how wide and how high each key may be, at most a key unit, to lie on no other."""
    found = {middle: [1.0, 1.0] for middle in middles}
    tiles = Tiles[Point](1.0)
    for middle in middles:
        for other in tiles.near(middle):
            _share(found, middle, other)
        tiles.put(middle, middle)
    return found


def _share(found: dict[Point, list[float]], one: Point, other: Point) -> None:
    """Make two keys narrower, or lower, by where they are farther apart."""
    apart = abs(one[0] - other[0]), abs(one[1] - other[1])
    side = 0 if apart[0] >= apart[1] else 1
    if apart[side] < 1 - SPREAD:
        most = round(apart[side], 4)
        for key in (one, other):
            found[key][side] = min(found[key][side], most)
