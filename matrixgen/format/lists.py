"""Lines of a layer's list: cells of lines right below each other stand under each other."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from matrixgen.format.laid import Laid
from matrixgen.format.rows import Row
from matrixgen.format.stretches import Stretch, spaced
from matrixgen.format.wrap import GOES_ON, INDENT, LONGEST
from matrixgen.source.tree import Piece


def entries(words: Sequence[Piece]) -> tuple[str, ...]:
    """Return a list's words as each key, and what stands after it.

    All but the first key have a blank before them: two blanks between one cell and the next.
    """
    fields: list[str] = []
    for _, (key, *said) in groupby(words, lambda word: word.part):
        fields += [" " * bool(fields) + key.text, spaced(said)]
    return tuple(fields)


def list_row(words: Sequence[Piece], run: int) -> Row:
    """Return the row of a list's line; lines of the same run are aligned."""
    return Row(group=("list", run), fields=entries(words))


def is_too_long(words: Sequence[Piece], indent: int) -> bool:
    """Whether a list's line has to go on below itself."""
    return indent + len(_loosely(words)) > LONGEST


def wrapped_list(stretch: Stretch, indent: int) -> Laid:
    """Return a list's line in as few lines as it takes; no cell is broken up."""
    rows: list[str] = []
    row, room = "", LONGEST - indent
    for text in _cells(stretch.words):
        if not row:
            row = text
        elif len(row) + 2 + len(text) <= room:
            row += f"  {text}"
        else:
            rows.append(row)
            row, room = f"{GOES_ON} {text}", LONGEST - indent - len(INDENT)
    return Laid((stretch,), (*rows, row), indent)


def list_in_stretches(stretches: tuple[Stretch, ...], indent: int) -> Laid:
    """Return a list's line that has line ends of its own."""
    first, *others = (_loosely(stretch.words) for stretch in stretches)
    return Laid(stretches, (first, *(f"{GOES_ON} {text}" for text in others)), indent)


def _loosely(words: Sequence[Piece]) -> str:
    """Return words with a blank between them, none before a comma, two before the next cell."""
    return "  ".join(_cells(words))


def _cells(words: Sequence[Piece]) -> list[str]:
    return [spaced(list(cell)) for _, cell in groupby(words, lambda word: word.part)]
