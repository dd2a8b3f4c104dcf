"""What a computer writes for strokes: signs, and dead keys that wait for the next stroke."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from matrixgen.layouts.marks import is_dead_mark

PairSign = Callable[[str, str], str]
"""From a dead key and the mark after it to what is written."""


def written_text(marks: Iterable[str | None], pair: PairSign) -> str:
    """Return the text of marks, one per stroke; a stroke without one ends a dead key's wait."""
    text: list[str] = []
    waiting: str | None = None
    for mark in marks:
        if mark is not None and waiting is not None:
            text.append(pair(waiting, mark))
            waiting = None
        elif mark is not None and is_dead_mark(mark):
            waiting = mark
        else:
            text.append(mark or "")
            waiting = None
    return "".join(text)
