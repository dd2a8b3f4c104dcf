"""The switch matrix: where each key's two wires meet, and which way its current can go."""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import Literal

from matrixgen.model.keyboard import Keyboard
from matrixgen.model.wiring import Line, Wiring
from matrixgen.record import Record, changed

Diode = Literal["toward", "away", "none"]
"""Where the band (cathode) points, seen from the driven line; or that there is no diode.

Sensed lines rest high and driven ones are pulled low, so that current runs from the sensed line to
the driven one: a key whose band points away is never seen. Where a file does not say, the band is
taken to point toward the driven line.
"""


class Contact(Record):
    """One key between its two lines, given by their places in `Matrix.drives` and `.senses`."""

    key: str
    drive: int
    sense: int
    diode: Diode


class Matrix(Record):
    """The lines in the order the firmware numbers them, and each key's contact, in plate order.

    A key that no row or no column visits is left out.
    """

    drives: tuple[Line, ...]
    senses: tuple[Line, ...]
    contacts: tuple[Contact, ...]


def matrix_of(keyboard: Keyboard) -> Matrix:
    """Return the matrix of a keyboard."""
    wiring = keyboard.wiring
    drives, senses = wiring.of_axis(wiring.drive), wiring.of_axis(wiring.sense)
    drive_of, sense_of = _line_of_key(drives), _line_of_key(senses)
    diode_of = _diode_of(wiring)
    names = (key.name.text for key in keyboard.keys)
    return Matrix(
        drives,
        senses,
        tuple(
            Contact(name, drive_of[name], sense_of[name], diode_of(name))
            for name in names
            if name in drive_of and name in sense_of
        ),
    )


def with_diodes(matrix: Matrix, keys: Collection[str]) -> Matrix:
    """Return a matrix whose keys of these names have a diode as the scan wants it."""
    contacts = (
        Contact(one.key, one.drive, one.sense, "toward") if one.key in keys else one
        for one in matrix.contacts
    )
    return changed(matrix, contacts=tuple(contacts))


def turned_right(matrix: Matrix) -> Matrix:
    """Return a matrix in which every diode that points away from its driven line is turned."""
    return with_diodes(matrix, {one.key for one in matrix.contacts if one.diode == "away"})


def _line_of_key(lines: tuple[Line, ...]) -> dict[str, int]:
    return {key.text: place for place, line in enumerate(lines) for key in line.visits}


def common_diode(wiring: Wiring) -> Diode:
    """Return where the bands point of all diodes that the wiring makes no exception of."""
    is_toward = wiring.diodes is None or wiring.diodes.band_toward == wiring.drive
    return "toward" if is_toward else "away"


def _diode_of(wiring: Wiring) -> Callable[[str], Diode]:
    """Return what tells the diode of a key by its name."""
    common = common_diode(wiring)
    turned: Diode = "away" if common == "toward" else "toward"
    exceptions: dict[str, Diode] = {word.text: turned for word in wiring.reversed}
    exceptions |= {word.text: "none" for word in wiring.without_diode}
    return lambda key: exceptions.get(key, common)
