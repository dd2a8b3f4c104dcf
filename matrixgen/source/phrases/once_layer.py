"""`once layer NAME`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import OnceLayer
from matrixgen.source.phrases.layer_name import layer_named
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.statements.statement import Lesson

if TYPE_CHECKING:
    from matrixgen.source.parser import Node
    from matrixgen.source.phrases.scope import Scope

ONCE = "write `once layer NAME`, or `once` and modifiers, as in `once Shift`"


def read(scope: Scope, phrase: Node) -> OnceLayer:
    """Return the action; an unknown layer is reported."""
    return OnceLayer(layer_named(scope, phrase))


PHRASE = Phrase(
    rule="once_layer",
    behaviour=OnceLayer,
    form="once layer NAME",
    first_word="once",
    read=read,
    lessons=(
        Lesson(
            message="nothing that could last for one key follows `{found}`",
            help=ONCE,
            broken=("actions\n  more = once\n", "layer a\n  A = once\n"),
        ),
        Lesson(
            message="`{found}` names no layer",
            help=ONCE,
            broken=("actions\n  more = once layer\n", "layer a\n  A = once layer\n"),
        ),
        Lesson(
            message="`{found}` is not the name of a layer",
            help=ONCE,
            broken=("actions\n  more = once layer [\n", "actions\n  more = once layer =\n"),
        ),
    ),
)
