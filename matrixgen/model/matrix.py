"""The switch matrix: where each key's two wires meet."""

from __future__ import annotations

from matrixgen.model.keyboard import Keyboard, Line
from matrixgen.model.record import record


@record
class Crossing:
    """A driven line and a sensed line, by their places in `Matrix.drives` and `Matrix.senses`."""

    drive: int
    sense: int


@record
class Matrix:
    """The lines in the order the firmware numbers them, and the crossing of each key."""

    drives: tuple[Line, ...]
    senses: tuple[Line, ...]
    crossings: dict[str, Crossing]

    def key_at(self) -> dict[Crossing, str]:
        """Return the key at each crossing that has one."""
        return {crossing: key for key, crossing in self.crossings.items()}


def matrix_of(keyboard: Keyboard) -> Matrix:
    """Return the matrix of a keyboard. A key that no row or no column visits is left out."""
    wiring = keyboard.wiring
    drives, senses = wiring.of_axis(wiring.drive), wiring.of_axis(wiring.sense)
    drive_of = {key.text: place for place, line in enumerate(drives) for key in line.visits}
    sense_of = {key.text: place for place, line in enumerate(senses) for key in line.visits}
    crossings = {
        key.name.text: Crossing(drive_of[key.name.text], sense_of[key.name.text])
        for key in keyboard.keys
        if key.name.text in drive_of and key.name.text in sense_of
    }
    return Matrix(drives, senses, crossings)
