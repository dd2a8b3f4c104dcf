"""Lists of keys that go on in the next line where they would be too long."""

from __future__ import annotations

from collections.abc import Sequence

INDENT = "  "
LONGEST = 100
"""Letters of a line beyond which its keys go on below it."""

GOES_ON = "and"


def wrapped(head: str, words: Sequence[str], indent: int) -> list[str]:
    """Return a statement's lines without indentation, those after the first with their `and`.

    `indent` is how far the first one will be indented; the others are indented by two more.
    """
    rows, row, room = [], head, LONGEST - indent
    for word in words:
        if len(row) + 1 + len(word) > room and row != GOES_ON:
            rows.append(row.rstrip())
            row, room = GOES_ON, LONGEST - indent - len(INDENT)
        row += f" {word}"
    return [*rows, row]


def without_splitting_runs(words: Sequence[str]) -> list[str]:
    """Return keys one by one, and each run `A to D` as one."""
    pieces: list[str] = []
    for place, word in enumerate(words):
        if pieces and (word == "to" or (place > 1 and words[place - 1] == "to")):
            pieces[-1] += f" {word}"
        else:
            pieces.append(word)
    return pieces
