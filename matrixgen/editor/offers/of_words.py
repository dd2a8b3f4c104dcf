"""Words of the language, and for all other kinds what stands elsewhere."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from matrixgen.editor.finite import words_of_terminal
from matrixgen.editor.offers.asked import Cursor
from matrixgen.editor.offers.of_cells import ANY_CELL
from matrixgen.editor.offers.of_list_keys import is_key_of_list
from matrixgen.editor.offers.offer import Offer
from matrixgen.model import SourceText
from matrixgen.source.phrases import EVERY
from matrixgen.source.statements import BLOCKS, STATEMENTS
from matrixgen.source.tree import every_statement, words_in
from matrixgen.source.tree_reader import tree_of

MISSING, USUAL, THERE, GOES_ON = 0.5, 1.0, 4.0, 3.0


def word_offers(asked: Cursor, terminal: str) -> Iterator[Offer]:
    """Yield the words of a terminal that has a few."""
    words = words_of_terminal(terminal)
    if asked.is_header and asked.words_before == ():
        yield from _blocks(asked, words)
    elif not asked.words_before:
        yield from _statements(asked, words)
    elif not ("CELL" in asked.expected and is_key_of_list(asked)):
        yield from _within(asked, words)


def _blocks(asked: Cursor, words: tuple[str, ...]) -> Iterator[Offer]:
    there = {one.block for one in asked.rest_of_file.all}
    for word in words:
        kind = BLOCKS.get(word)
        if kind is None:
            continue
        is_missing = word not in there
        rank = MISSING if is_missing else USUAL if kind.often == "any" else THERE
        yield Offer(word, rank, kind.form)


def _statements(asked: Cursor, words: tuple[str, ...]) -> Iterator[Offer]:
    """Yield the first words of statements, with their forms: missing ones first."""
    there = [one.rule for one in asked.rest_of_file.all if one.block == asked.block]
    above = [one.rule for one in asked.rest_of_file.all if one.span.line < asked.line]
    for word in words:
        for number, kind in enumerate(STATEMENTS.values()):
            if kind.keyword == word and kind.block == asked.block:
                rank = USUAL + (kind.often == "once") / 2 + number / 100
                rank += THERE * (kind.often == "once" and kind.rule in there)
                rank -= 1.2 * (above[-1:] == [kind.rule] and kind.often == "any")
                rank -= 2 * _fits(asked, kind.form)
                rank -= 2 * (asked.word_after != "=" and asked.goes_on(word))
                yield Offer(word, rank, kind.form)


def _fits(asked: Cursor, form: str) -> bool:
    """Whether what stands behind the cursor is like the form of a statement."""
    words, behind = form.replace(",", " , ").split()[1:], asked.words_after
    behind = behind[: behind.index("=") - 1] if "=" in behind else behind
    language = [word for word in words if word.isalpha() and word.islower()]
    return bool(behind) and any(word in behind for word in language)


def _within(asked: Cursor, words: tuple[str, ...]) -> Iterator[Offer]:
    """Yield words that go on with a statement: those that what is behind needs first."""
    said = [one.text for one in asked.rest_of_file.all]
    begins = asked.word_before in ("=", "then")
    forms = {one.first_word: one.form for one in reversed(EVERY) if begins}
    is_open = "CELL" in asked.expected and (not asked.words_after or asked.goes_on(ANY_CELL))
    for word in words:
        uses = sum(text == word for text in said)
        rank = USUAL + 1 / (1 + uses) - (not is_open and asked.goes_on(word)) * GOES_ON
        yield Offer(word, rank, forms.get(word, ""))


def elsewhere(asked: Cursor, terminal: str) -> Iterator[Offer]:
    """Yield words of a terminal from the forms of statements, and from the rest of the file."""
    rules = {kind.rule for kind in STATEMENTS.values() if kind.keyword == asked.rule_word}
    there = [one for one in asked.rest_of_file.of(terminal) if one.rule in rules]
    for place, one in enumerate(reversed(there)):
        yield Offer(one.text, USUAL + place / 100)
    for rule in rules:
        for text in _in_form(rule).get(terminal, ()):
            yield Offer(text, USUAL + 0.5)


@cache
def _in_form(rule: str) -> dict[str, list[str]]:
    """Return the words of a statement's form, by their terminals."""
    kind = STATEMENTS[rule]
    text = f"{BLOCKS[kind.block].form}\n  {kind.form}\n"
    found: dict[str, list[str]] = {}
    for statement in every_statement(tree_of(SourceText("", text))):
        if statement.rule == rule:
            for piece in words_in(statement.pieces):
                found.setdefault(piece.terminal, []).append(piece.text)
    return found
