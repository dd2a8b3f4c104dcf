"""Lines of a layer's list: cells of lines right below each other stand under each other."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.format.laid import Laid
from matrixgen.format.parts import Part, spaced
from matrixgen.format.rows import Row
from matrixgen.format.wrap import GOES_ON

EQUALS = "="


def entries(words: Sequence[str]) -> tuple[str, ...]:
    """Return a list's words as what stands before and after each `=`, in turn.

    All but the first key have a blank before them: two blanks between one cell and the next.
    """
    starts = [place - 1 for place, word in enumerate(words) if word == EQUALS and place]
    ends = [*starts[1:], len(words)]
    fields: list[str] = []
    for start, end in zip(starts, ends, strict=True):
        fields += [" " * bool(fields) + words[start], spaced(words[start + 1 : end])]
    return tuple(fields)


def list_row(words: Sequence[str], run: int) -> Row:
    """Return the row of a list's line; lines of the same run are aligned."""
    return Row(group=("list", run), fields=entries(words))


def list_in_parts(parts: tuple[Part, ...], indent: int) -> Laid:
    """Return a list's line that has line ends of its own."""
    first, *others = (_loosely(part.words) for part in parts)
    return Laid(parts, (first, *(f"{GOES_ON} {text}" for text in others)), indent)


def _loosely(words: Sequence[str]) -> str:
    """Return words with a blank between them, none before a comma, two before the next cell."""
    text = words[0]
    for place, word in enumerate(words[1:], 1):
        begins_cell = tuple(words[place + 1 : place + 2]) == (EQUALS,)
        gap = "" if word == "," else "  " if begins_cell else " "
        text += gap + word
    return text
