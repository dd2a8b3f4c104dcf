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
    from matrixgen.source.parser import Node


def names_in(block: Node | None) -> list[str]:
    """Return the names that the block defines."""
    return [str(tokens(statement)[0]) for statement in trees(block)] if block else []


def named_actions(
    reporter: Reporter, block: Node | None, vocabulary: Vocabulary
) -> tuple[NamedAction, ...]:
    """Return the block `actions`; its names become words of the vocabulary."""
    names = Names(reporter, ACTION)
    found: list[NamedAction] = []
    for statement in trees(block) if block else ():
        first, said = statement.children
        name = reporter.word(first)  # type: ignore[arg-type]  # the grammar has a token there
        action = vocabulary.phrase_of(said)
        if names.define(name) and not _means_something(reporter, name):
            vocabulary.define(name.text, action)
            if action is not None:
                found.append(NamedAction(name, action, reporter.whole(statement)))
    return tuple(found)


def _means_something(reporter: Reporter, name: Word) -> bool:
    """Whether a name is a word of the language already; a cell could then mean either."""
    if name.text in FIRST_WORDS or name.text == "and":
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
        f"`{name.text}` is already the name of a key, so that a cell could mean either",
        help="choose a name that says what the action is for",
    )
    return True
