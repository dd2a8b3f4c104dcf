"""A pointer's key, as one word: `PointerLeft`, `Button1`. It is read where a press is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Pointer
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.usages.pointer import pointer_usage_of, pointer_word

if TYPE_CHECKING:
    from matrixgen.source.syntax import Token
    from matrixgen.source.vocabulary import Vocabulary


def read(scope: Vocabulary, token: Token) -> Pointer | None:
    """Return the key that a word names; None for other words, and for an action's name."""
    found = None if scope.knows(token) else pointer_usage_of(token)
    return Pointer(*found) if found else None


def report_joined(scope: Vocabulary, token: Token, name: str, start: int) -> bool:
    """Report the part `name` of a cell, from letter number `start` on, if it is a pointer's key."""
    found = None if scope.knows(name) else pointer_usage_of(name)
    if found is None:
        return False
    scope.reporter.report(
        "pointer-key-joined",
        scope.reporter.part(token, start, len(name)),
        f"`{name}` is a key of the pointer, and nothing can be combined with it",
        help=f"write only `{pointer_word(*found)}`, and hold the modifier with a key of its own, "
        "or put `once Shift` and the like on one",
    )
    return True


PHRASE = Phrase(
    rule="CELL",
    behaviour=Pointer,
    form="POINTER-KEY",
    read=read,
)
