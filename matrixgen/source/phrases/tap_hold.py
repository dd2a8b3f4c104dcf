"""`tap ACTION, hold ACTION`, and what decides between the two."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Action, TapHold
from matrixgen.source.phrases.decided_part import part_of
from matrixgen.source.phrases.decisions import decisions_of
from matrixgen.source.phrases.phrase import Phrase

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node, Token

HELP = "a tap and a hold each do one thing, at once: give the other a key of its own"


def read(scope: Scope, phrase: Node) -> TapHold | None:
    """Return the action; report parts that make no sense, and what is said of it twice."""
    tap, hold, *decisions = phrase.children
    tapped, held = _part(scope, tap), _part(scope, hold)
    options = decisions_of(scope, decisions)
    if tapped is None or held is None or options is None:
        return None
    return TapHold(tapped, held, **options)


def _part(scope: Scope, said: Token | Node) -> Action | None:
    """Return what a tap or a hold does; report what cannot be half of a key."""
    return part_of(scope, said, "unfit-tap-or-hold", "a tap or a hold", HELP)


PHRASE = Phrase(
    rule="tap_hold",
    behaviour=TapHold,
    form="tap ACTION, hold ACTION",
    read=read,
)
