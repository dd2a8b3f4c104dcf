"""A finding as an editor shows it: the words of `check`, without the lines that it quotes."""

from __future__ import annotations

from matrixgen.model import Diagnostic


def message_of(found: Diagnostic) -> str:
    """Return what is wrong, then facts that have no place of their own, and each cure."""
    notes = [f"note: {note.text}" for note in found.notes if note.span is None]
    helps = [f"help: {help}" for help in found.helps]
    return "\n".join([found.message, *found.figure, *notes, *helps])
