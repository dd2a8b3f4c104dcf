"""`hold layer NAME`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import HoldLayer
from matrixgen.source.phrases.layer_name import WHICH, layer_named
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.statements.statement import Lesson

if TYPE_CHECKING:
    from matrixgen.source.parser import Node
    from matrixgen.source.phrases.scope import Scope


def read(scope: Scope, phrase: Node) -> HoldLayer:
    """Return the action; an unknown layer is reported."""
    return HoldLayer(layer_named(scope, phrase))


PHRASE = Phrase(
    rule="hold",
    behaviour=HoldLayer,
    form="hold layer NAME",
    first_word="hold",
    read=read,
    lessons=(
        Lesson(
            message="`{found}` is not followed by the word `layer`",
            help=WHICH,
            broken=("actions\n  more = hold\n", "layer a\n  A = hold\n"),
        ),
        Lesson(
            message="expected the word `layer`, found `{found}`",
            help=f"{WHICH}; a key for two things is written `tap A, hold Ctrl`",
            broken=("actions\n  more = hold symbols\n", "layer a\n  A = hold symbols\n"),
        ),
        Lesson(
            message="`{found}` names no layer",
            help=WHICH,
            broken=("actions\n  more = hold layer\n", "layer a\n  A = hold layer\n"),
        ),
    ),
)
