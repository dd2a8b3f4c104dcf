"""What a cell of a layer may be: a key of the list, or what that key does."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from matrixgen.editor.offers.asked import Cursor
from matrixgen.editor.offers.cells.around import CellsAround
from matrixgen.editor.offers.cells.by_name import spelt_like
from matrixgen.editor.offers.cells.likely import VOTES, likely, rank_of
from matrixgen.editor.offers.cells.sent import apart, sent_by
from matrixgen.editor.offers.of_list_keys import is_key_of_list, keys_of_list
from matrixgen.editor.offers.offer import Offer
from matrixgen.layouts import layout_named
from matrixgen.source.blocks.pictures import SEE_THROUGH
from matrixgen.usages import usages, words_of
from matrixgen.usages.media import media_usages, media_words_of
from matrixgen.usages.pointer import pointer_words

ANY_CELL = "A"
"""A cell, as far as the grammar knows."""

ANY = 5.0
"""The rank of a word that nothing speaks for."""

OTHER_SPELLING, LEFT_ALONE, UNUSED, USED = 0.55, 3.0, 5.0, 1.6
"""What a second spelling counts; votes for `~` beside another, for an action without a key and with
one."""


def cells(asked: Cursor) -> Iterator[Offer]:
    """Yield keys where a list names one, and otherwise what a key may do."""
    if is_key_of_list(asked):
        yield from keys_of_list(asked)
    else:
        yield from _likely(CellsAround(asked))
        yield from words_for_usages(asked)


def _likely(around: CellsAround) -> Iterator[Offer]:
    """Yield what the cell probably is, and the actions of the file."""
    votes = _behind_modifiers(around, likely(around))
    does_not_fit = around.asked.words_after and not around.asked.goes_on(ANY_CELL)
    for sent, count in votes.items():
        count -= VOTES if does_not_fit else 0
        for place, word in enumerate(around.spelling.of(sent)):
            yield Offer(word, rank_of(count * OTHER_SPELLING**place))
    yield from actions(around)


def _behind_modifiers(around: CellsAround, votes: dict[str, float]) -> dict[str, float]:
    """Return the votes for what may follow the modifiers that are written: of cells with them."""
    before, has_some, _ = sent_by(around.asked.word).rpartition("+")
    if not has_some:
        return votes
    each = ((*apart(sent), count) for sent, count in votes.items())
    behind = f"{before}+"
    return {key: count for modifiers, key, count in each if modifiers in ("", behind)} | {
        apart(sent)[1]: count + VOTES for sent, count in votes.items() if apart(sent)[0] == behind
    }


def actions(around: CellsAround) -> Iterator[Offer]:
    """Yield the names of the block `actions`, those that no key has yet first."""
    asked = around.asked
    words = asked.rest_of_file
    used = {one.text for one in words.of("CELL")} | {*asked.words_before, *asked.words_after}
    names = words.names("ACTION_NAME")
    alike = dict(spelt_like(names, around.stem))
    for one in names:
        if one != (asked.rule_word if asked.block == "actions" else ""):
            is_used = one in used
            says = "an action" if is_used else "an action that no key has yet"
            votes = alike.get(one, 0.0) + (USED if is_used else UNUSED)
            yield Offer(one, rank_of(votes), says)


def left_alone(asked: Cursor) -> Iterator[Offer]:
    """Yield `~`, first where its neighbours are left alone too."""
    if is_key_of_list(asked):
        return
    around = CellsAround(asked)
    beside = [asked.word_before, asked.word_after, around.beside(-1, 0), around.beside(1, 0)]
    votes = LEFT_ALONE * sum(one == SEE_THROUGH for one in beside)
    yield Offer(SEE_THROUGH, rank_of(votes + 2), "this layer leaves the key alone")


def words_for_usages(asked: Cursor) -> Iterator[Offer]:
    """Yield every word for a key, and the letters of the layout that the file names."""
    used = {one.text for one in asked.rest_of_file.of("CELL", "KEY")}
    for word, says in (*_letters(asked), *_every_word()):
        yield Offer(word, ANY + (word in used) / 2, says)


def _letters(asked: Cursor) -> Iterator[tuple[str, str]]:
    names = asked.rest_of_file.texts("LAYOUT_NAME")
    layout = layout_named(names[0]) if names else None
    if layout is None:
        return
    for usage in layout.usages:
        signs = [sign for sign in layout.signs(usage) if sign and sign.isprintable()]
        for sign in signs:
            if len(sign) == 1 and not sign.isascii():
                yield sign, f"on {names[0]}, by the key {words_of(usage)[0]}"


@cache
def _every_word() -> tuple[tuple[str, str], ...]:
    found: dict[str, str] = {}
    for usage in usages():
        words = words_of(usage)
        for word in sorted(words, key=len):
            others = [other for other in words if other != word]
            found.setdefault(word, ", ".join(others) and f"also {', '.join(others)}")
    for media in media_usages():
        for word in media_words_of(*media):
            found.setdefault(word, "a media key")
    for word in pointer_words():
        found.setdefault(word, "a key of a pointer")
    found.setdefault("nothing", "the key does nothing here")
    return tuple(found.items())
