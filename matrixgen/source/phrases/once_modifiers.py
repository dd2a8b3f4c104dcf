"""`once MODIFIER`, or several joined by `+`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import OnceModifiers, Press
from matrixgen.source.letters import joined_parts
from matrixgen.source.phrases import press
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.reporter import tokens

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node


def read(scope: Scope, phrase: Node) -> OnceModifiers | None:
    """Return the action; report a word that is no modifier, or a key among them."""
    word, reporter = tokens(phrase)[0], scope.reporter
    if word in scope.layers:
        reporter.report(
            "not-a-modifier",
            reporter.span(word),
            f"`{word}` is not a modifier, but there is a layer of that name",
            help=f"write `once layer {word}`",
        )
        return None
    held = press.read(scope, word)
    if held is None:
        return None
    if isinstance(held, Press) and held.usage == 0:
        return OnceModifiers(held.modifiers)
    key = joined_parts(word)[-1]
    reporter.report(
        "not-a-modifier",
        reporter.part(word, len(word) - len(key), len(key)),
        f"`{key}` is not a modifier, so it cannot wait for the next key",
        help="write Ctrl, Shift, Alt or GUI after `once`, or several joined by `+`",
    )
    return None


PHRASE = Phrase(
    rule="once_modifiers",
    behaviour=OnceModifiers,
    form="once MODIFIER",
    read=read,
)
