"""A part of a key that is decided after its press: a tap, a hold, or one press of several."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Action, HoldLayer, starts_boot_loader
from matrixgen.source.phrases.layer_name import layer_named

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node, Token

DECIDED = {
    "tap_hold": "has a tap and a hold of its own",
    "first_second": "does something else when it is pressed again",
}
"""What is said of a name whose action, by the grammar's rule, waits for something itself."""


def part_of(scope: Scope, said: Token | Node, slug: str, of: str, help: str) -> Action | None:
    """Return what a part does; report under a slug what cannot be one, `of` what it would be."""
    if not isinstance(said, str) and said.data == "held":
        return HoldLayer(layer_named(scope, said))
    what = DECIDED.get(scope.rules.get(str(said), "")) if isinstance(said, str) else None
    if what:
        _report(scope, said, slug, f"`{said}` {what}", help)
        return None
    action = scope.action_of(said)
    if action is not None and starts_boot_loader(action):
        _report(scope, said, slug, f"the boot loader cannot start by {of}", help)
        return None
    return action


def _report(scope: Scope, said: Token | Node, slug: str, message: str, help: str) -> None:
    reporter = scope.reporter
    span = reporter.span(said) if isinstance(said, str) else reporter.whole(said)
    reporter.report(slug, span, message, help=help)
