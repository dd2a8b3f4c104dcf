"""Things by square tiles of the plane, to ask what is near a place without asking all of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import product
from math import floor
from typing import Generic, TypeVar

from matrixgen.model.geometry import Point

T = TypeVar("T")


class Tiles(Generic[T]):
    """Tiles of one size: what is no farther than their side is on the same one or beside it."""

    def __init__(self, side: float) -> None:
        self._side = side
        self._things: dict[tuple[int, int], list[T]] = defaultdict(list)

    def put(self, at: Point, thing: T) -> None:
        """Put a thing where it is."""
        self._things[self.of(at)].append(thing)

    def near(self, at: Point) -> Iterator[T]:
        """Yield what is on the tile of a place and on the eight round it, column by column."""
        column, row = self.of(at)
        for tile in product(range(column - 1, column + 2), range(row - 1, row + 2)):
            yield from self._things.get(tile, ())

    def of(self, at: Point) -> tuple[int, int]:
        """Return the tile of a place, counted to the right and down."""
        return floor(at[0] / self._side), floor(at[1] / self._side)
