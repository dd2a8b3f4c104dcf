"""The block `actions`: a name for what a key does."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.layers import NamedAction
from matrixgen.model.text import Word
from matrixgen.source.names import ACTION, Names
from matrixgen.source.phrases import FIRST_WORDS
from matrixgen.source.reporter import Reporter, tokens, trees
from matrixgen.source.vocabulary import Vocabulary
from matrixgen.usages import is_spelling

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node, Token


ALSO_RESERVED = frozenset({"and", "layer", "together"})
"""Words that no action can be called besides those: `hold layer` is the start of a phrase, and
`together` that of a line in which a picture could have it as a cell."""


READ_LAST = {"in_turn": 1, "typed": 1, "with_modifier": 2, "tap_hold": 3, "first_second": 3}
"""The grammar's rules for actions that may name others, those of a lower number."""


def names_in(block: Node | None) -> list[str]:
    """Return the names that the block defines."""
    return [str(tokens(statement)[0]) for statement in trees(block)] if block else []


def named_actions(
    reporter: Reporter, block: Node | None, vocabulary: Vocabulary
) -> tuple[NamedAction, ...]:
    """Return the block `actions`; its names become words of the vocabulary.

    What is done in turn may name actions that stand below it, what depends on a modifier those as
    well, and what is decided after a press all of them: so they are read last.
    """
    names = Names(reporter, ACTION)
    statements = trees(block) if block else []
    vocabulary.rules = {str(tokens(one)[0]): rule for one in statements if (rule := _rule(one))}
    words = {id(one): reporter.word(tokens(one)[0]) for one in statements}
    usable = {id(one) for one in statements if _is_free(reporter, names, words[id(one)])}
    found: dict[int, NamedAction] = {}
    for statement in sorted(statements, key=lambda one: READ_LAST.get(_rule(one), 0)):
        name, action = words[id(statement)], vocabulary.phrase_of(_said(statement))
        if id(statement) in usable:
            vocabulary.define(name.text, action)
            if action is not None:
                found[id(statement)] = NamedAction(name, action, reporter.whole(statement))
    return tuple(found[id(one)] for one in statements if id(one) in found)


def _rule(statement: Node) -> str:
    """Return the grammar's rule of what an action does, or nothing for one word."""
    said = _said(statement)
    return "" if isinstance(said, str) else str(said.data)


def _said(statement: Node) -> Token | Node:
    """Return the cell or the phrase of a statement."""
    (value,) = trees(statement)
    return value.children[0]


def _is_free(reporter: Reporter, names: Names, name: Word) -> bool:
    """Whether an action can have that name; report where it cannot."""
    return names.define(name) and not _means_something(reporter, name)


def _means_something(reporter: Reporter, name: Word) -> bool:
    """Whether a name is a word of the language already; a cell could then mean either."""
    if name.text in FIRST_WORDS or name.text in ALSO_RESERVED:
        reporter.report(
            "reserved-name",
            name.span,
            f"an action cannot be called `{name}`, which is a word of the language",
            help="choose a name that says what the action is for",
        )
        return True
    if not is_spelling(name.text):
        return False
    reporter.report(
        "action-named-as-usage",
        name.span,
        f"`{name.text}` is already the name of a key, so a cell could mean either",
        help="choose a name that says what the action is for",
    )
    return True
