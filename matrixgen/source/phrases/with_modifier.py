"""`CELL, with MODIFIER CELL`: something else while a modifier is down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Instead, InTurn, Media, Pointer, Press, WithModifier
from matrixgen.model.actions.with_modifier import RIGHT, kinds_of
from matrixgen.model.diagnostic import Note
from matrixgen.source.letters import joined_parts
from matrixgen.source.phrases import press
from matrixgen.source.phrases.decided_part import DECIDED
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.reporter import tokens, trees
from matrixgen.usages import modifier_bit

if TYPE_CHECKING:
    from matrixgen.model.actions import Action
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node, Token

SEVERAL = {
    **DECIDED,
    "with_modifier": "does something else with a modifier itself",
}
"""What is said of a name whose action, by the grammar's rule, is several that one is chosen of."""


def read(scope: Scope, phrase: Node) -> WithModifier | None:
    """Return the action; report parts that type nothing, and modifiers that are asked for twice."""
    action = _typing(scope, phrase.children[0])
    said = [one for one in trees(phrase) if one.data == "instead"]
    others = [_instead(scope, one) for one in said]
    found = tuple(one for one in others if one is not None)
    if action is None or len(found) != len(others) or _is_twice(scope, said, found):
        return None
    return WithModifier(action, found)


def _instead(scope: Scope, said: Node) -> Instead | None:
    modifiers, action = _modifiers(scope, tokens(said)[0]), _typing(scope, said.children[1])
    return Instead(modifiers, action) if modifiers and action else None


def _modifiers(scope: Scope, word: Token) -> int:
    """Return the bits of modifiers, those of both sides where none is said; report other words."""
    held = press.read(scope, word)
    if held is None:
        return 0
    if not isinstance(held, Press) or held.usage:
        key = joined_parts(word)[-1]
        scope.reporter.report(
            "not-a-modifier",
            scope.reporter.part(word, len(word) - len(key), len(key)),
            f"`{key}` is not a modifier, so a key cannot go by it",
            help="write Ctrl, Shift, Alt or GUI after `with`, with Left or Right if you like",
        )
        return 0
    return _sides(scope, word)


def _sides(scope: Scope, word: Token) -> int:
    """Return the bits of a word's modifiers; report a kind that it has twice."""
    found, exact, start = 0, 0, 0
    for name in joined_parts(word):
        bit = modifier_bit(press.usage_in(scope, name) or 0)
        is_either = bit < 1 << RIGHT and not name.casefold().startswith("left")
        if exact & bit:
            return 0  # reported as the word was read
        if kinds_of(found) & kinds_of(bit):
            scope.reporter.report(
                "duplicate-modifier",
                scope.reporter.part(word, start, len(name)),
                f"`{word}` asks for two modifiers of one kind",
                help="`with` asks for one of each: `Shift` is either side, `LeftShift` only one",
            )
            return 0
        found |= bit | bit << RIGHT if is_either else bit
        exact |= bit
        start += len(name) + 1
    return found


def _typing(scope: Scope, said: Token | Node) -> Action | None:
    """Return what such a key does, with a modifier or without; report what types nothing."""
    what = SEVERAL.get(scope.rules.get(str(said), "")) if isinstance(said, str) else None
    action = None if what else scope.action_of(said)
    if action is None and what is None:
        return None
    if isinstance(action, Media | InTurn) or (isinstance(action, Press) and action.usage):
        return action
    if isinstance(action, Pointer) and not action.moves_pointer:
        return action
    span = scope.reporter.span(said) if isinstance(said, str) else scope.reporter.whole(said)
    scope.reporter.report(
        "unfit-with",
        span,
        f"`{said}` {what or 'types nothing, so no modifier can change what it does'}",
        help="each is a key, modifiers and a key, a media key, or the name of one or of a text",
    )
    return None


def _is_twice(scope: Scope, said: list[Node], found: tuple[Instead, ...]) -> bool:
    """Whether two of them ask for the same modifiers; report the second."""
    first: dict[int, Node] = {}
    for node, one in zip(said, found, strict=True):
        earlier = first.setdefault(one.modifiers, node)
        if earlier is not node:
            word, reporter = tokens(node)[0], scope.reporter
            reporter.report(
                "duplicate-modifier",
                reporter.span(word),
                f"`with {word}` is here a second time",
                help="keep one of the two, or write the other modifier that is meant",
                notes=[Note("the first one is here", reporter.span(tokens(earlier)[0]))],
            )
            return True
    return False


PHRASE = Phrase(
    rule="with_modifier",
    behaviour=WithModifier,
    form="CELL, with MODIFIER CELL",
    read=read,
)
