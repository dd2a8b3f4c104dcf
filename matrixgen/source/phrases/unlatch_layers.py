"""`unlatch layers`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import UnlatchLayers
from matrixgen.source.phrases.phrase import Phrase

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node


def read(scope: Scope, phrase: Node) -> UnlatchLayers:
    """Return the action, whatever it stands in."""
    return UnlatchLayers()


PHRASE = Phrase(
    rule="unlatch",
    behaviour=UnlatchLayers,
    form="unlatch layers",
    first_word="unlatch",
    read=read,
)
