"""`type "TEXT"`, and `CELL, then CELL`: one thing after the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import InTurn, Pause, Press, Struck, Typed
from matrixgen.source.letters import composed
from matrixgen.source.names import in_range
from matrixgen.source.phrases import typed_sign
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.reporter import tokens
from matrixgen.usages.key_stroke import KeyStroke

if TYPE_CHECKING:
    from matrixgen.model.actions import TurnStep
    from matrixgen.model.text import Span
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node, Token

WAIT_MS = (10, 2550)


def read(scope: Scope, phrase: Node) -> InTurn | None:
    """Return the action; report what is no step of one."""
    said = [phrase] if phrase.data == "typed" else phrase.children
    steps = [_step(scope, one) for one in said]
    found = tuple(step for step in steps if step is not None)
    return InTurn(found) if len(found) == len(steps) else None


def _step(scope: Scope, said: Token | Node) -> TurnStep | None:
    if isinstance(said, str):
        return _struck(scope, said)
    return _typed(scope, said) if said.data == "typed" else _wait(scope, said)


def _struck(scope: Scope, word: Token) -> TurnStep | None:
    is_several = word in scope.with_two_meanings or word in scope.in_turn
    action = None if is_several else scope.action_of(word)
    if action is None and not is_several:
        return None
    if isinstance(action, Press):
        return Struck(KeyStroke(action.usage, action.modifiers))
    if isinstance(action, InTurn) and scope.letters.is_sign(word):
        return action.steps[0]  # a letter that needs a dead key
    scope.reporter.report(
        "unfit-step",
        scope.reporter.span(word),
        f"`{word}` cannot be one of several things in turn",
        help="each is a key, modifiers and a key, a text or a wait, as in `Ctrl+K, then Enter`",
    )
    return None


def _typed(scope: Scope, said: Node) -> Typed | None:
    """Return a text with its strokes; report what the computer's layout cannot type."""
    token = tokens(said)[0]
    word, layout = scope.reporter.text(token), scope.letters.layout
    if layout is None:
        scope.reporter.report(
            "missing-statement",
            word.span,
            "what types a text depends on the layout that the computer is set to",
            help="write it in the block `keyboard`, as in `computer us`; `matrixgen layouts` lists "
            "them",
        )
        return None
    text, strokes = composed(word.text), list[KeyStroke]()
    for sign in text:
        way = layout.way(sign)
        if way is None:
            typed_sign.report_untypable(scope, layout, sign, _place_of(scope, token, sign))
            return None
        strokes += way
    return Typed(text, tuple(strokes)) if text else None


def _place_of(scope: Scope, token: Token, sign: str) -> Span:
    """Return where a sign stands in a text, or the whole text where it is written otherwise."""
    place = token.find(sign, 1)
    return scope.reporter.part(token, place, 1) if place > 0 else scope.reporter.span(token)


def _wait(scope: Scope, said: Node) -> Pause | None:
    token, reporter = tokens(said)[0], scope.reporter
    value = float(token)
    if not in_range(reporter, value, *WAIT_MS, reporter.span(token), "the time in ms"):
        return None
    if value % 10:
        message = f"the time in ms is {value:g}; it must be a multiple of ten"
        reporter.report("number-out-of-range", reporter.span(token), message)
        return None
    return Pause(int(value))


PHRASE = Phrase(
    rule="in_turn",
    behaviour=InTurn,
    form="CELL, then CELL",
    first_word=None,
    read=read,
)
