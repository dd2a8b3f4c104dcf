"""Pins near what is wired to them, where the controller's place on the plate is known."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import atan2, dist

from matrixgen.boards import Pin, Profile
from matrixgen.circuit.lengths import centres_mm
from matrixgen.model import Keyboard
from matrixgen.model.geometry import Point
from matrixgen.routing.board import BoardOnPlate, board_on_plate


class Nearness:
    """The board on the plate, and the first key of each wire that is to go to it."""

    def __init__(self, board: BoardOnPlate, keyboard: Keyboard, first_keys: Sequence[str]) -> None:
        self._board = board
        self._middle = _mean(board.corners)
        self._centres = centres_mm(keyboard)
        self._starts = [self._centres[name] for name in first_keys]

    def far(self, pins: Sequence[Pin]) -> float:
        """Return how far pins are from the middle of all keys that wires start from."""
        if not self._starts:
            return 0.0
        middle = _mean(self._starts)
        return sum(dist(self._at(pin), middle) for pin in pins)

    def matched(self, first_keys: Sequence[str], pins: Sequence[Pin]) -> tuple[Pin, ...]:
        """Return the pins in the order of the keys that wires start from: as near as may be.

        Wires leave the board side by side: keys and pins are both taken as one meets them round it,
        from wherever the way is shortest in all.
        """
        starts = [self._centres[name] for name in first_keys]
        order = sorted(range(len(starts)), key=lambda one: self._angle(starts[one]))
        walked = sorted(pins, key=lambda pin: self._angle(self._at(pin)))

        def way(some: Sequence[Pin]) -> float:
            pairs = zip(order, some, strict=True)
            return sum(dist(starts[number], self._at(pin)) for number, pin in pairs)

        best = min(_turned(walked), key=way, default=())
        at = dict(zip(order, best, strict=True))
        return tuple(at[number] for number in range(len(starts)))

    def _at(self, pin: Pin) -> Point:
        pad = self._board.pads.get(pin.name)
        return pad.at if pad else self._middle  # it is no pad of an edge: somewhere on the board

    def _angle(self, at: Point) -> float:
        return atan2(at[1] - self._middle[1], at[0] - self._middle[0])


def nearness(keyboard: Keyboard, profile: Profile, first_keys: Sequence[str]) -> Nearness | None:
    """Return the nearness for a keyboard; None where it is not known where the controller lies.

    `first_keys` has the key that each wire starts from.
    """
    board = board_on_plate(keyboard.plate, profile)
    return Nearness(board, keyboard, first_keys) if board else None


def _turned(pins: Sequence[Pin]) -> Iterator[tuple[Pin, ...]]:
    """Yield pins in their order, from each of them on."""
    for start in range(len(pins)):
        yield (*pins[start:], *pins[:start])


def _mean(points: Sequence[Point]) -> Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)
