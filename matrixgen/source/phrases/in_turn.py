"""`type "TEXT"`, and `CELL, then CELL`: one thing after the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import InTurn, Pause, Press, Struck
from matrixgen.source.phrases import typed_text
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.phrases.with_modifier import SEVERAL
from matrixgen.source.reporter import every_token, tokens
from matrixgen.usages.key_stroke import KeyStroke

if TYPE_CHECKING:
    from matrixgen.model.actions import TurnStep
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node, Token

WAIT_MS = (10, 2550)

IN_TURN = ("in_turn", "typed")
"""The grammar's rules for what is done in turn."""


def read(scope: Scope, phrase: Node) -> InTurn | None:
    """Return the action; report what is no step of one."""
    said = [phrase] if phrase.data == "typed" else phrase.children
    steps = [_step(scope, one) for one in said]
    found = tuple(step for step in steps if step is not None)
    if len(found) != len(steps):
        return None
    action = InTurn(found)
    return action if _has_room(scope, every_token(phrase)[0], action) else None


OWN_PLACES = 2
"""Of the table of strokes, what each action takes besides its own: its end, and that it is text."""


def _has_room(scope: Scope, first: Token, action: InTurn) -> bool:
    """Whether the firmware's table holds what is typed as well; report the first that does not."""
    if action in scope.turns:
        return True
    most, before = scope.reporter.limits.strokes, scope.strokes
    scope.turns.add(action)
    scope.strokes += len(list(action.moves)) + OWN_PLACES
    if scope.strokes > most and before <= most:
        scope.reporter.report(
            "over-the-limit",
            scope.reporter.span(first),
            f"what all keys type in turn has more than {most:,} strokes and waits up to here",
            help="leave long texts to the computer, which can paste them or write them for a key",
        )
    return scope.strokes <= most


def _step(scope: Scope, said: Token | Node) -> TurnStep | None:
    if isinstance(said, str):
        return _struck(scope, said)
    return typed_text.read(scope, said) if said.data == "typed" else _wait(scope, said)


def _struck(scope: Scope, word: Token) -> TurnStep | None:
    is_several = scope.rules.get(word) in (*IN_TURN, *SEVERAL)
    action = None if is_several else scope.action_of(word)
    if action is None and not is_several:
        return None
    if isinstance(action, Press):
        return Struck(KeyStroke(action.usage, action.modifiers))
    if isinstance(action, InTurn) and scope.letters.is_sign(word):
        return action.steps[0]  # a letter that needs a dead key
    help = "each is a key, modifiers and a key, a text or a wait, as in `Ctrl+K, then Enter`"
    if scope.rules.get(word) in IN_TURN:
        help = f"`{word}` is several things itself, or a text: write here what it does, in full"
    scope.reporter.report(
        "unfit-step",
        scope.reporter.span(word),
        f"`{word}` cannot be one of several things in turn",
        help=help,
    )
    return None


def _wait(scope: Scope, said: Node) -> Pause | None:
    token, reporter = tokens(said)[0], scope.reporter
    value = float(token)
    if not reporter.in_range(value, *WAIT_MS, reporter.span(token), "the time in ms"):
        return None
    if value % 10:
        message = f"the time in ms is {value:g}; it must be a multiple of ten"
        below = int(value // 10) * 10
        help = f"write {below} or {below + 10}" if below + 10 <= WAIT_MS[1] else f"write {below}"
        reporter.report("number-out-of-range", reporter.span(token), message, help=help)
        return None
    return Pause(int(value))


PHRASE = Phrase(
    rule="in_turn",
    behaviour=InTurn,
    form="CELL, then CELL",
    read=read,
)
