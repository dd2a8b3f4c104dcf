"""`unlatch layers`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import UnlatchLayers
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.statements.statement import Lesson

if TYPE_CHECKING:
    from matrixgen.source.parser import Node
    from matrixgen.source.phrases.scope import Scope

_WHICH = "write `unlatch layers`, which ends every latch; `latch layer NAME` ends that of one layer"


def read(scope: Scope, phrase: Node) -> UnlatchLayers:
    """Return the action, whatever it stands in."""
    return UnlatchLayers()


PHRASE = Phrase(
    rule="unlatch",
    behaviour=UnlatchLayers,
    form="unlatch layers",
    first_word="unlatch",
    read=read,
    lessons=(
        Lesson(
            message="`{found}` is not followed by the word `layers`",
            help=_WHICH,
            broken=("actions\n  plain = unlatch\n", "layer a\n  A = unlatch\n"),
        ),
        Lesson(
            message="expected the word `layers`, found `{found}`",
            help=_WHICH,
            broken=(
                "actions\n  plain = unlatch layer\n",
                "actions\n  plain = unlatch layer a\n",
                "actions\n  plain = unlatch all\n",
                "layer a\n  A = unlatch a\n",
            ),
        ),
    ),
)
