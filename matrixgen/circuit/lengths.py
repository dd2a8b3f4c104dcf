"""How long the wires of a matrix are, from where the keys lie on the plate."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from math import dist

from matrixgen.circuit.planned import LEAD_METRE, PITCH_MM
from matrixgen.model import Keyboard, Line
from matrixgen.model.geometry import Point, centre_of


def centres_mm(keyboard: Keyboard) -> dict[str, Point]:
    """Return the middle of each key on the plate in millimetres, by its name."""
    pitch = PITCH_MM.value
    centres = ((key.name.text, centre_of(key)) for key in keyboard.keys)
    return {name: (x * pitch, y * pitch) for name, (x, y) in centres}


def run_mm(points: Iterable[Point]) -> float:
    """Return the length of a wire that goes straight from each point to the next."""
    return sum(dist(one, other) for one, other in pairwise(points))


def wire_metres(line: Line, centres: dict[str, Point]) -> float:
    """Return the length of a line's wire in metres: from key to key, and on to the controller."""
    return run_mm(centres[word.text] for word in line.visits) / 1000 + LEAD_METRE.value
