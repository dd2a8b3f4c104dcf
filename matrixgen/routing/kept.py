"""Routes that were found before: while a file is edited, most changes move no wire.

Routes follow from places alone, and are known here by them, so a changed keymap, colour or comment
needs no search.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from matrixgen.model import Keyboard
from matrixgen.routing.places import Joint, Placed

if TYPE_CHECKING:
    from matrixgen.routing.board import BoardOnPlate
    from matrixgen.routing.router import Routed

Routes = list[list["Routed"]]
"""The routes of each wire's hops, in the order of the wires."""

Search = Callable[[int], Routes]
"""Looks for them with at most so many pieces of possible routes."""

FindRoutes = Callable[[str, Search, int], Routes]
"""Returns the routes for some places, which a search with so many pieces finds."""

MOST_KEPT = 8
"""Plates and wirings: somebody who edits goes back and forth between a few."""


def places_of(
    keyboard: Keyboard,
    switches: tuple[Placed, ...],
    ways: list[tuple[Joint, ...]],
    board: BoardOnPlate | None,
) -> str:
    """Return all that routes follow from, as a text that is equal where they are."""
    from matrixgen.model.meaning import said_by  # only here: what is drawn once need not wait

    placed = [
        (one.key.name.text, one.middle, one.body, one.near, one.far, one.diode) for one in switches
    ]
    return repr((said_by(keyboard.plate), placed, ways, board))


class KeptRoutes:
    """The last few routes that were found, by their places."""

    def __init__(self) -> None:
        self._kept: dict[str, Routes] = {}

    def find(self, places: str, search: Search, most_pieces: int) -> Routes:
        """Return the routes for these places: those from before, or what the search finds."""
        found = self._kept.pop(places, None) or search(most_pieces)
        while len(self._kept) >= MOST_KEPT:
            del self._kept[next(iter(self._kept))]
        self._kept[places] = found
        return found

    def find_if_kept(self, places: str, search: Search, most_pieces: int) -> Routes:
        """Return those from before; where there are none, wires without routes, which costs little.

        Each such hop says that it `is_left_out`.
        """
        return self._kept.get(places) or search(0)
