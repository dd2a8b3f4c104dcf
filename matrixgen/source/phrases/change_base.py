"""`change base to NAME`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import ChangeBase
from matrixgen.source.phrases.layer_name import known_layer
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.reporter import tokens
from matrixgen.source.statements.statement import Lesson

if TYPE_CHECKING:
    from matrixgen.source.parser import Node
    from matrixgen.source.phrases.scope import Scope

_WHICH = "write `change base to NAME`; `change base to base` goes back to just `layer base`"


def read(scope: Scope, phrase: Node) -> ChangeBase:
    """Return the action; an unknown layer is reported. The base layer itself may be named."""
    return ChangeBase(known_layer(scope, tokens(phrase)[-1]))


PHRASE = Phrase(
    rule="change_base",
    behaviour=ChangeBase,
    form="change base to NAME",
    first_word="change",
    read=read,
    lessons=(
        Lesson(
            message="`{found}` is not followed by the word `base`",
            help=_WHICH,
            broken=("actions\n  other = change\n", "layer a\n  A = change\n"),
        ),
        Lesson(
            message="expected the word `base`, found `{found}`",
            help=_WHICH,
            broken=("actions\n  other = change to dvorak\n", "actions\n  other = change layer a\n"),
        ),
        Lesson(
            message="`{found}` is not followed by `to` and a layer",
            help=_WHICH,
            broken=("actions\n  other = change base\n",),
        ),
        Lesson(
            message="expected the word `to`, found `{found}`",
            help=_WHICH,
            broken=("actions\n  other = change base dvorak\n",),
        ),
        Lesson(
            message="`{found}` names no layer",
            help=_WHICH,
            broken=("actions\n  other = change base to\n", "layer a\n  A = change base to\n"),
        ),
    ),
)
