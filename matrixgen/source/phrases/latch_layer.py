"""`latch layer NAME`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import LatchLayer
from matrixgen.source.phrases.layer_name import layer_named
from matrixgen.source.phrases.phrase import Phrase

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node


def read(scope: Scope, phrase: Node) -> LatchLayer:
    """Return the action; an unknown layer is reported."""
    return LatchLayer(layer_named(scope, phrase))


PHRASE = Phrase(
    rule="latch",
    behaviour=LatchLayer,
    form="latch layer NAME",
    first_word="latch",
    read=read,
)
