"""`tap ACTION, hold ACTION`, and what decides between the two."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Action, HoldLayer, TapHold, starts_boot_loader
from matrixgen.source.phrases.decisions import decisions_of
from matrixgen.source.phrases.layer_name import layer_named
from matrixgen.source.phrases.phrase import Phrase

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node, Token


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
    if not isinstance(said, str) and said.data == "held":
        return HoldLayer(layer_named(scope, said))
    if isinstance(said, str) and scope.rules.get(said) == "tap_hold":
        _report_unfit(scope, said, f"`{said}` has a tap and a hold of its own")
        return None
    action = scope.action_of(said)
    if action is not None and starts_boot_loader(action):
        _report_unfit(scope, said, "the boot loader cannot start by a tap or a hold")
        return None
    return action


def _report_unfit(scope: Scope, said: Token | Node, message: str) -> None:
    reporter = scope.reporter
    span = reporter.span(said) if isinstance(said, str) else reporter.whole(said)
    reporter.report(
        "unfit-tap-or-hold",
        span,
        message,
        help="a tap and a hold each do one thing, at once: give the other a key of its own",
    )


PHRASE = Phrase(
    rule="tap_hold",
    behaviour=TapHold,
    form="tap ACTION, hold ACTION",
    first_word="tap",
    read=read,
)
