"""What kind of thing a word is, by the grammar's terminal for it: for icons and colours."""

from __future__ import annotations

from functools import cache
from typing import Literal

from matrixgen.editor.finite import words_of_terminal
from matrixgen.merge.rewrite import NAMED, NamedKind

Kind = NamedKind | Literal["word", "number", "text", "name"]


@cache
def kind_of(terminal: str) -> Kind:
    """Return the kind of a terminal's words; `name` for names that the program knows."""
    if terminal in NAMED:
        return NAMED[terminal]
    if words_of_terminal(terminal):
        return "word"
    if terminal == "STRING":
        return "text"
    is_number = terminal in ("GAP", "SIZE") or any(
        part in terminal for part in ("NUMBER", "SCREW", "IDS")
    )
    return "number" if is_number else "name"
