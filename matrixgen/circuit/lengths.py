"""How long the wires of a matrix are, from where the keys lie on the plate."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from math import dist

from matrixgen.circuit.planned import LEAD_METRE, ROUND_THE_BOARD_METRE
from matrixgen.model import ControllerPlace, Keyboard, Line
from matrixgen.model.geometry import Point
from matrixgen.model.switch import centre_mm, middle_mm


def centres_mm(keyboard: Keyboard) -> dict[str, Point]:
    """Return the middle of each key on the plate in millimetres, by its name."""
    return {key.name.text: centre_mm(key) for key in keyboard.keys}


def run_mm(points: Iterable[Point]) -> float:
    """Return the length of a wire that goes straight from each point to the next."""
    return sum(dist(one, other) for one, other in pairwise(points))


def wire_metres(line: Line, centres: dict[str, Point], place: ControllerPlace | None) -> float:
    """Return the length of a line's wire in metres: from key to key, and on to the controller.

    Where the controller's place is known, the way there is at most as if it went right and down the
    plate, and round the board.
    """
    points = [centres[word.text] for word in line.visits]
    lead = LEAD_METRE.value
    if place and points:
        (x, y), (u, v) = points[0], middle_mm(place)
        lead = (abs(x - u) + abs(y - v)) / 1000 + ROUND_THE_BOARD_METRE.value
    return run_mm(points) / 1000 + lead
