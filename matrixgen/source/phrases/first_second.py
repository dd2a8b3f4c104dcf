"""`first ACTION, second ACTION`, maybe a third, and how soon each has to follow."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Action, FirstSecond
from matrixgen.model.actions.first_second import WITHIN_MS
from matrixgen.source.phrases.decided_part import part_of
from matrixgen.source.phrases.decisions import milliseconds
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.reporter import trees

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node

RANGE_MS = (50, 2000)
HELP = "each press does one thing, at once: give the other a key of its own"


def read(scope: Scope, phrase: Node) -> FirstSecond | None:
    """Return the action; report parts that make no sense, and a time out of range."""
    said = [one for one in phrase.children if isinstance(one, str) or one.data != "soon"]
    times = [milliseconds(scope, one, *RANGE_MS) for one in trees(phrase) if one.data == "soon"]
    parts = [part_of(scope, one, "unfit-press", "one press of several", HELP) for one in said]
    found: list[Action] = [one for one in parts if one is not None]
    if len(found) != len(parts) or None in times:
        return None
    third = found[2] if len(found) > 2 else None
    return FirstSecond(found[0], found[1], third, times[0] if times and times[0] else WITHIN_MS)


PHRASE = Phrase(
    rule="first_second",
    behaviour=FirstSecond,
    form="first ACTION, second ACTION",
    read=read,
)
