"""`start boot loader`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import StartBootLoader
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.statements.statement import Lesson

if TYPE_CHECKING:
    from matrixgen.source.parser import Node
    from matrixgen.source.phrases.scope import Scope


def read(scope: Scope, phrase: Node) -> StartBootLoader:
    """Return the action, whatever it stands in."""
    return StartBootLoader()


PHRASE = Phrase(
    rule="boot_loader",
    behaviour=StartBootLoader,
    form="start boot loader",
    first_word="start",
    read=read,
    lessons=(
        Lesson(
            message="`{found}` does not start the boot loader",
            help="write `start boot loader`, as in `update = start boot loader`",
            broken=(
                "actions\n  update = start\n",
                "actions\n  update = start loader\n",
                "actions\n  update = start boot\n",
                "actions\n  update = start boot-loader\n",
                "actions\n  update = start boot loaders\n",
                "layer a\n  A = start\n",
            ),
        ),
    ),
)
