"""`latch layer NAME`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import LatchLayer
from matrixgen.source.phrases.layer_name import WHICH, layer_named
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.statements.statement import Lesson

if TYPE_CHECKING:
    from matrixgen.source.parser import Node
    from matrixgen.source.phrases.scope import Scope


def read(scope: Scope, phrase: Node) -> LatchLayer:
    """Return the action; an unknown layer is reported."""
    return LatchLayer(layer_named(scope, phrase))


PHRASE = Phrase(
    rule="latch",
    behaviour=LatchLayer,
    form="latch layer NAME",
    first_word="latch",
    read=read,
    lessons=(
        Lesson(
            message="`{found}` is not followed by the word `layer`",
            help=WHICH,
            broken=("actions\n  more = latch\n", "layer a\n  A = latch\n"),
        ),
        Lesson(
            message="expected the word `layer`, found `{found}`",
            help=WHICH,
            broken=("actions\n  more = latch symbols\n", "layer a\n  A = latch symbols\n"),
        ),
        Lesson(
            message="`{found}` names no layer",
            help=WHICH,
            broken=("actions\n  more = latch layer\n", "layer a\n  A = latch layer\n"),
        ),
    ),
)
