"""From rows to the columns that need least wire for them, to rows for those, and so on."""

from __future__ import annotations

from collections.abc import Iterable
from random import Random

import numpy as np

from matrixgen.fit.beginnings import Groups
from matrixgen.fit.layout import Layout
from matrixgen.fit.path_cover import Costs, cheapest_paths
from matrixgen.fit.plan import Plan

MOST_TURNS = 12
MOST_MOVED = 4
NEARNESS = 0.35
"""How fast the chance falls that a key is moved to the row of one that is further away."""

LEAST_GAIN = 1e-6


class Descent:
    """What goes downhill in one plan, to so many rows and columns."""

    def __init__(self, plan: Plan, rows: int, columns: int) -> None:
        self._plan = plan
        self._rows, self._columns = rows, columns
        self._row_hops: Costs = np.asarray(plan.row_hops)
        self._column_hops: Costs = np.asarray(plan.distances)

    def down(self, rows: Groups) -> Layout | None:
        """Take rows in order, and in turn the best columns for them and the best rows for those.

        None where a row has more keys than there are columns.
        """
        least, found = float("inf"), None
        for _ in range(MOST_TURNS):
            turned = self._turn(rows)
            if turned is None or turned.cost > least - LEAST_GAIN:
                break
            found, least = turned, turned.cost
            rows = self._plan.along(found.rows, found.columns)
        return found and found.tidied

    def _turn(self, rows: Groups) -> Layout | None:
        columns = self._cover(rows, self._column_hops, self._columns)
        if columns is None:
            return None
        across = self._cover(self._plan.along(columns, rows), self._row_hops, self._rows)
        return Layout(self._plan, tuple(across), tuple(columns)) if across else None

    def _cover(self, groups: Groups, hops: Costs, paths: int) -> list[tuple[int, ...]] | None:
        layer = [0] * len(hops)
        for number, group in enumerate(groups):
            for key in group:
                layer[key] = number
        return cheapest_paths(layer, hops, paths)

    def beside(self, layout: Layout, chance: Random) -> Layout | None:
        """Move a few keys of a layout to other rows, and go down from there."""
        rows = self._plan.along(layout.rows, layout.columns)
        for _ in range(chance.randint(1, MOST_MOVED)):
            self._move(rows, chance)
        return self.down(rows)

    def _move(self, rows: list[list[int]], chance: Random) -> None:
        """Move one key to the row of a neighbour; where that is full, the neighbour goes back."""
        place = {key: number for number, row in enumerate(rows) for key in row}
        key = chance.randrange(len(place))
        other = self._plan.neighbour(key, NEARNESS, chance)
        one, two = place[key], place[other]
        if one == two or len(rows[one]) == 1:
            return
        rows[one].remove(key)
        rows[two].append(key)
        if len(rows[two]) > self._columns:
            rows[two].remove(other)
            rows[one].append(other)


def best_of(layouts: Iterable[Layout | None]) -> Layout | None:
    """Return the layout with least wire, then the tidiest, then the first; None without any."""
    found = (layout for layout in layouts if layout is not None)
    return min(
        found, key=lambda layout: (round(layout.run_mm, 3), round(layout.cost, 6)), default=None
    )
