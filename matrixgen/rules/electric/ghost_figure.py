"""A ghost as a small drawing: the wires that it needs, and its keys where they cross."""

from __future__ import annotations

from matrixgen.circuit.ghosts import Ghost
from matrixgen.model import Axis, Contact, Matrix

GAP = "   "


def ghost_figure(ghost: Ghost, matrix: Matrix, drive: Axis) -> list[str]:
    """Return the drawing, a line each: rows across, columns down, the key that is seen in brackets.

    `drive` says whether the driven lines are the rows or the columns.
    """
    places = {_place(one, drive): one.key for one in ghost.pressed}
    places[_place(ghost.seen, drive)] = f"({ghost.seen.key})"
    rows, columns = (sorted({place[axis] for place in places}) for axis in (0, 1))
    row_lines, column_lines = matrix.senses, matrix.drives
    if drive == "row":
        row_lines, column_lines = column_lines, row_lines
    table = [["", *(column_lines[column].name.text for column in columns)]]
    table += [
        [row_lines[row].name.text, *(places.get((row, column), ".") for column in columns)]
        for row in rows
    ]
    wide = [max(len(line[place]) for line in table) for place in range(len(columns) + 1)]
    return [
        GAP.join(word.ljust(width) for word, width in zip(line, wide, strict=True)).rstrip()
        for line in table
    ]


def _place(contact: Contact, drive: Axis) -> tuple[int, int]:
    """Return the numbers of the row and the column of a key."""
    is_row_driven = drive == "row"
    return (contact.drive, contact.sense) if is_row_driven else (contact.sense, contact.drive)
