"""A pointer's key, as one word: `PointerLeft`, `Button1`. It is read where a press is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Pointer
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.usages.pointer import pointer_usage_of

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Token


def read(scope: Scope, token: Token) -> Pointer | None:
    """Return the key that a word names; None for other words, and for an action's name."""
    found = None if scope.knows(token) else pointer_usage_of(token)
    return Pointer(*found) if found else None


PHRASE = Phrase(
    rule="CELL",
    behaviour=Pointer,
    form="POINTER-KEY",
    read=read,
)
