"""`change base to NAME`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import ChangeBase
from matrixgen.source.phrases.layer_name import known_layer
from matrixgen.source.phrases.phrase import Phrase

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node


def read(scope: Scope, phrase: Node) -> ChangeBase:
    """Return the action; an unknown layer is reported. The base layer itself may be named."""
    return ChangeBase(known_layer(scope, phrase).text)


PHRASE = Phrase(
    rule="change_base",
    behaviour=ChangeBase,
    form="change base to NAME",
    read=read,
)
