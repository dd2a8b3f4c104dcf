"""`nothing`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Nothing
from matrixgen.source.phrases.phrase import Phrase

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node


def read(scope: Scope, phrase: Node) -> Nothing:
    """Return the action, whatever it stands in."""
    return Nothing()


PHRASE = Phrase(
    rule="nothing",
    behaviour=Nothing,
    form="nothing",
    first_word="nothing",
    read=read,
)
