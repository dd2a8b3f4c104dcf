"""Routes on a plate's back, found once a run: a large example's take seconds.

They follow from the places of what is wired and of what is in the way, which name them here. Tests
of the router itself ask it, and not `back_of`.
"""

from __future__ import annotations

import pickle
from typing import Any

from matrixgen.model.meaning import said_by
from matrixgen.routing import back
from tests.made_once import made_once

routes_of = back._routes


def routed_once(keyboard, switches, runs, most_pieces, apart, board) -> Any:
    """Return what the program's own function does."""
    if not apart:
        return routes_of(keyboard, switches, runs, most_pieces, apart, board)
    wiring = said_by(keyboard.wiring)
    key = repr(("routes", said_by(keyboard.plate), wiring, runs, most_pieces, board))
    found = made_once(
        key,
        lambda: pickle.dumps(routes_of(keyboard, switches, runs, most_pieces, apart, board)),
    )
    return pickle.loads(found)
