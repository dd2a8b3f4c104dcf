"""`once layer NAME`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import OnceLayer
from matrixgen.source.phrases.layer_name import layer_named
from matrixgen.source.phrases.phrase import Phrase

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node


def read(scope: Scope, phrase: Node) -> OnceLayer:
    """Return the action; an unknown layer is reported."""
    return OnceLayer(layer_named(scope, phrase))


PHRASE = Phrase(
    rule="once_layer",
    behaviour=OnceLayer,
    form="once layer NAME",
    first_word="once",
    read=read,
)
