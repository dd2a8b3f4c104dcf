"""The order in which one scan reads the keys."""

from __future__ import annotations

from itertools import groupby

from matrixgen.model import Keyboard, matrix_of


def scan_order(keyboard: Keyboard) -> list[list[str]]:
    """Return the keys of each driven line, in the order in which one scan reads them.

    Those of a draft that have no place in the matrix yet come last, in the order of the plate.
    """
    contacts = matrix_of(keyboard).contacts
    in_order = sorted(contacts, key=lambda contact: (contact.drive, contact.sense))
    lines = [
        [contact.key for contact in line]
        for _, line in groupby(in_order, key=lambda contact: contact.drive)
    ]
    wired = {contact.key for contact in contacts}
    return [*lines, [key.name.text for key in keyboard.keys if key.name.text not in wired]]
