"""What a cell of a layer may be: a key of the list, or what that key does."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import pairwise

from matrixgen.computer.coverage import EDITING, FUNCTIONS, MOVING
from matrixgen.editor.offers.asked import Cursor
from matrixgen.editor.offers.neighbours import is_key_word, next_to
from matrixgen.editor.offers.of_layers import layer_cells
from matrixgen.editor.offers.offer import Offer
from matrixgen.layouts import layout_named
from matrixgen.model.layers import BASE
from matrixgen.source.letters import name_of_key
from matrixgen.source.phrases import FIRST_WORDS
from matrixgen.usages import usage_of, usages, words_of
from matrixgen.usages.media import media_usages, media_words_of

OFTEN_WITH_CTRL = ("C", "V", "X", "Z", "S", "A", "F", "N")
"""Letters that programs act on with Ctrl (common practice, no source)."""

WAITED_FOR, NEXT, NAMED, LEFT_ALONE, ANY = 0.0, 1.0, 2.0, 3.0, 5.0


def cells(asked: Cursor) -> Iterator[Offer]:
    """Yield keys where a list names one, and otherwise what a key may do."""
    if is_key_of_list(asked):
        yield from _keys_of_list(asked)
    else:
        yield from actions(asked)
        yield from _usages(asked)
        yield from _own_name(asked)
        yield from _of_a_group(asked)
        yield from words_for_usages(asked)


def is_key_of_list(asked: Cursor) -> bool:
    """Whether the word before `=` is to be written."""
    if asked.block != "layer":
        return False
    if asked.word_after == "=":
        return True
    if "=" in asked.words_before:
        return asked.word_before not in ("=", ",") and not _is_in_phrase(asked)
    return _is_list(asked) and not asked.words_after


def _is_in_phrase(asked: Cursor) -> bool:
    """Whether the word before belongs to a phrase that a name has to follow."""
    return asked.word_before in FIRST_WORDS or asked.word_before in ("then", "hold", "tap")


def _is_list(asked: Cursor) -> bool:
    """Whether the layer is a list so far, as far as its other lines tell."""
    words = [one.rule for one in asked.rest_of_file.all if one.block == "layer"]
    mine = [rule for _, rule in layer_cells(asked)]
    return (mine or words or ["entries"])[0] == "entries" and "~" not in asked.words_before


def _keys_of_list(asked: Cursor) -> Iterator[Offer]:
    order = list(asked.rest_of_file.keys)
    here = [*asked.words_before, *asked.words_after]
    taken = {name_of_key(a) for a, b in pairwise(here) if b == "="}
    taken |= {name_of_key(key) for key, _ in layer_cells(asked)}
    before = _key_near(asked.words_before[::-1], order) or _last_key_above(asked, order)
    after = _key_near(asked.words_after[2:], order)
    header = [*asked.source.line(asked.header_line).split(), "", ""][1]
    for key in order:
        if key not in taken:
            far = [
                abs(order.index(key) - order.index(end) - step)
                for end, step in ((before, 1), (after, -1))
                if end
            ]
            waits = header == BASE and not is_key_word(key.partition(".")[0])
            rank = WAITED_FOR if waits else NEXT
            yield Offer(key, rank + min(far, default=order.index(key)) / 1000)


def _key_near(words: tuple[str, ...], order: list[str]) -> str | None:
    """Return the first key of a list's entry among some words."""
    for place, word in enumerate(words):
        beside = (words[place - 1 : place] + words[place + 1 : place + 2]) if place else words[1:2]
        if "=" in beside and name_of_key(word) in order:
            return name_of_key(word)
    return None


def _last_key_above(asked: Cursor, order: list[str]) -> str | None:
    above = [one for one in asked.rest_of_file.of("KEY") if one.block == "layer"]
    mine = [one for one in above if asked.header_line < one.span.line < asked.line]
    keys = [name_of_key(one.text) for one in mine]
    return next((key for key in reversed(keys) if key in order), None)


def actions(asked: Cursor) -> Iterator[Offer]:
    """Yield the names of the block `actions`, those that no key has yet first."""
    words = asked.rest_of_file
    used = {one.text for one in words.of("CELL")} | {*asked.words_before, *asked.words_after}
    for one in words.defined.get("ACTION_NAME", ()):
        if one.text != (asked.rule_word if asked.block == "actions" else ""):
            is_used = one.text in used
            says = "an action" if is_used else "an action that no key has yet"
            yield Offer(one.text, NAMED if is_used else WAITED_FOR + 0.5, says)


def _usages(asked: Cursor) -> Iterator[Offer]:
    """Yield what follows the cell before, or comes before the one behind."""
    before, after = _cell_before(asked), _cell_after(asked)
    here = {*asked.words_before, *asked.words_after}
    known = here if "=" in here else here - {"~"}
    for place, word in enumerate(next_to(before, after, known)):
        yield Offer(word, NEXT + place / 100)
    if (before and before == after) or _is_repeated(asked, before):
        yield Offer(before, WAITED_FOR if before == after else NEXT + 0.015)


def _is_repeated(asked: Cursor, cell: str) -> bool:
    """Whether the cell before is like the one before that: a third may follow."""
    return "=" not in asked.words_before and asked.words_before[-2:] == (cell, cell)


def _own_name(asked: Cursor) -> Iterator[Offer]:
    """Yield what the name of the list's key says without its tag."""
    key = asked.words_before[-2] if asked.word_before == "=" and len(asked.words_before) > 1 else ""
    stem = key.partition(".")[0]
    if stem and is_key_word(stem):
        yield Offer(stem, NAMED - 0.5 if "." in key else ANY - 1)
        if stem in OFTEN_WITH_CTRL:
            yield Offer(f"Ctrl+{stem}", NEXT + 0.03)


def _of_a_group(asked: Cursor) -> Iterator[Offer]:
    """Yield keys for moving or editing beside others of them, and what no cell has yet of these."""
    here = {usage_of(word) for word in (*asked.words_before, *asked.words_after)}
    there = {usage_of(one.text) for one in asked.rest_of_file.of("CELL", "KEY")}
    for group in (MOVING, EDITING, FUNCTIONS):
        beside = here & {usage_of(word) for word in group}
        taken = here if beside else here | there
        wanted = [word for word in group if usage_of(word) not in taken]
        rank = NEXT + 0.02 if beside else ANY - 2
        for place, word in enumerate(wanted):
            for short in words_of(usage_of(word) or 0):
                yield Offer(short, rank + place / 100 + (short not in _printed(asked)) / 1000)
    for place, word in enumerate(OFTEN_WITH_CTRL if asked.word_before in ("=", "tap") else ()):
        yield Offer(f"Ctrl+{word}", ANY - 1 + place / 100)


def _printed(asked: Cursor) -> set[str]:
    """Return the words that the file uses for keys."""
    return set(asked.rest_of_file.texts("CELL", "KEY"))


def _cell_before(asked: Cursor) -> str:
    """Return the cell before: of a list, what the key before does."""
    words = asked.words_before
    if asked.word_before == "=" and len(words) > 2:
        return words[-3]
    if asked.word_before == "=":
        cells = [one for one in asked.rest_of_file.of("CELL") if one.span.line < asked.line]
        return cells[-1].text if cells and cells[-1].span.line > asked.header_line else ""
    return asked.word_before


def _cell_after(asked: Cursor) -> str:
    words = asked.words_after
    if "=" in asked.words_before and len(words) > 2 and words[1] == "=":
        return words[2]
    return asked.word_after


def left_alone(asked: Cursor) -> Iterator[Offer]:
    """Yield `~`, first where its neighbours are left alone too."""
    beside = (asked.word_before, asked.word_after)
    if not is_key_of_list(asked):
        rank = WAITED_FOR if "~" in beside else LEFT_ALONE
        yield Offer("~", rank, "this layer leaves the key alone")


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
    return tuple(found.items())
