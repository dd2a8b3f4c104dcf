"""Files that try to be slow to check, each at the limits of the language or at a part of them.

Each shape takes a `size` from 0 to 1: the share of every limit that it goes to. So `size` 1 is the
worst that a stranger can hand in, and what a check takes for it can be compared with size 1/2.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from matrixgen.source.limits import LIMITS
from matrixgen.source.load import words_of

Shape = Callable[[float], str]

WIRES = LIMITS.lines_per_axis
PADDED = 40
"""Letters of long names: an unknown one is compared with each that is known."""

SHAPES: dict[str, Shape] = {}
"""Every shape by its name."""


def shape(made: Shape) -> Shape:
    """Keep a shape among the others, by its name in words."""
    SHAPES[made.__name__.replace("_", " ")] = made
    return made


def filled(head: str, lines: Iterable[str], size: float, tail: str = "") -> str:
    """As many of the lines as a file, or that share of it, has room for."""
    words = LIMITS.words * size - words_of(head) - words_of(tail)
    room = int(LIMITS.file_bytes * size) - len(head.encode()) - len(tail.encode()) - 2
    kept = []
    for line in lines:
        room -= len(line.encode()) + 1
        words -= words_of(line)
        if min(room, words) < 0:
            break
        kept.append(line)
    return "\n".join([head, *kept, tail])


def again(*lines: str) -> Iterable[str]:
    """These lines without an end."""
    while True:
        yield from lines


def keys_of(count: int, letters: str = "k") -> list[str]:
    return [f"{letters}{number}" for number in range(count)]


def rows_of(keys: list[str], wide: int = WIRES) -> list[list[str]]:
    return [keys[start : start + wide] for start in range(0, len(keys), wide)]


def plate_of(rows: list[list[str]]) -> list[str]:
    return ["plate", *(f"  line {' '.join(row)}" for row in rows), ""]


def matrix_of(rows: list[list[str]], *statements: str) -> list[str]:
    """A wiring of a row for each line of the plate, and a column for each place in it."""
    said = statements or ("diodes 1N4148, band toward columns",)
    columns = [[row[n] for row in rows if n < len(row)] for n in range(len(rows[0]))]
    return [
        "wiring",
        *(f"  {statement}" for statement in said),
        *(f"  row r{n}  {' '.join(row)}" for n, row in enumerate(rows)),
        *(f"  column c{n}  {' '.join(column)}" for n, column in enumerate(columns)),
        "",
    ]


def letters_of(keys: list[str]) -> list[str]:
    return ["layer base", *(f"  {key} = A" for key in keys), ""]


def count_of(size: float, most: int = LIMITS.keys) -> int:
    return max(2, int(most * size))


def whole(
    size: float, *statements: str, cells: Callable[[list[str]], list[str]] = letters_of
) -> str:
    keys = keys_of(count_of(size))
    rows = rows_of(keys)
    return "\n".join([*plate_of(rows), *matrix_of(rows, *statements), *cells(keys)])
