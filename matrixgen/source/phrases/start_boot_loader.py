"""`start boot loader`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import StartBootLoader
from matrixgen.source.phrases.phrase import Phrase

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node


def read(scope: Scope, phrase: Node) -> StartBootLoader:
    """Return the action, whatever it stands in."""
    return StartBootLoader()


PHRASE = Phrase(
    rule="boot_loader",
    behaviour=StartBootLoader,
    form="start boot loader",
    first_word="start",
    read=read,
)
