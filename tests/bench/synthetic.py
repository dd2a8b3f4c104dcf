"""Keyboards of any size, as text: a row wire for each plate line, a column wire a place in it."""

from __future__ import annotations


def keyboard_text(rows: int, columns: int, pins: list[str] | None = None) -> str:
    """Return a file of `rows` x `columns` keys named K0, K1, ... that each have an action.

    `pins` are given to the rows, then to the columns; without them the pins are P0, P1, ... of no
    chip, which is enough for a file that is only read.
    """
    names = [[f"K{row * columns + column}" for column in range(columns)] for row in range(rows)]
    pins = pins or [f"P{number}" for number in range(rows + columns)]
    letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    parts = ['keyboard "Synthetic"', "  controller atmega32u4", "", "plate"]
    parts += [f"  line {' '.join(row)}" for row in names]
    parts += ["", "wiring", "  drive rows, sense columns", "  diodes 1N4148, band toward rows"]
    parts += [f"  row r{n} on {pins[n]}  {' '.join(row)}" for n, row in enumerate(names)]
    parts += [
        f"  column c{n} on {pins[rows + n]}  {' '.join(row[n] for row in names)}"
        for n in range(columns)
    ]
    parts += ["", "layer base"]
    parts += [
        "  " + "  ".join(f"{key} = {letters[n % 26]}" for n, key in enumerate(row)) for row in names
    ]
    return "\n".join(parts) + "\n"
