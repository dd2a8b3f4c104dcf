"""What is said after a tap and a hold, of how they are told apart."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from matrixgen.model.diagnostic import Note
from matrixgen.source.reporter import tokens

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node

AFTER_MS = (50, 2000)
ROLL_MS = (0, 500)


def decisions_of(scope: Scope, decisions: list[Any]) -> dict[str, Any] | None:
    """Return what is said besides the two parts, by field; None where something is wrong."""
    found: dict[str, Any] = dict(scope.tap_hold)
    first: dict[str, Node] = {}
    is_sound = True
    for one in decisions:
        rule = str(one.data)
        if first.setdefault(rule, one) is not one:
            _report_twice(scope, one, first[rule])
            is_sound = False
            continue
        field, value = OPTIONS[rule](scope, one)
        is_sound = is_sound and value is not None
        found[field] = value
    return found if is_sound else None


def _report_twice(scope: Scope, decision: Node, first: Node) -> None:
    reporter = scope.reporter
    span = reporter.whole(decision)
    word = reporter.said(span)[0]
    reporter.report(
        "duplicate-decision",
        span,
        f"`{word}` is given a second time for this key",
        help="keep one of the two",
        notes=[Note("the first one is here", reporter.whole(first))],
    )


def milliseconds(scope: Scope, decision: Node, least: int, most: int) -> int | None:
    """Return a time; report one that is out of range or no whole number."""
    number = scope.reporter.number(tokens(decision)[0])
    is_fine = scope.reporter.is_whole_in(number, least, most, "the time in ms")
    return int(number.value) if is_fine else None


Option = Callable[["Scope", "Node"], tuple[str, Any]]

OPTIONS: dict[str, Option] = {
    "after": lambda scope, one: ("after_ms", milliseconds(scope, one, *AFTER_MS)),
    "decider": lambda scope, one: ("decided_by", str(tokens(one)[0])),
    "roll": lambda scope, one: ("roll_ms", milliseconds(scope, one, *ROLL_MS)),
    "other_hand": lambda scope, one: ("other_hand", True),
}
"""The field that each of the grammar's rules is about, and its value; None where it is wrong."""
