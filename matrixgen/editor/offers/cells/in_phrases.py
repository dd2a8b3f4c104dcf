"""Cells within phrases: what a tap does, which modifier a hold is, what comes instead."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from matrixgen.editor.offers.cells.around import CellsAround, Votes
from matrixgen.editor.offers.cells.by_name import COMMANDS, INSTEAD
from matrixgen.editor.offers.cells.sent import apart, sent_by
from matrixgen.source.phrases import EVERY
from matrixgen.usages import is_word, modifier_bit, usage_of

MODIFIERS = ("Shift", "Ctrl", "Alt", "GUI", "RightShift", "AltGr", "RightCtrl", "RightGUI")
"""Modifiers, those that are used most first (common practice, no source)."""

LEFT_ONES = 4
"""Modifiers of one side."""

CERTAIN, SURE, LIKELY = 12.0, 6.0, 3.0


def before_names() -> frozenset[str]:
    """Return the words of phrases that a name follows: `tap`, `then`, `second`."""
    pairs = ((one, after) for each in EVERY for one, after in _pairs(each.form))
    return frozenset(one for one, after in pairs if one.islower() and after.isupper())


def _pairs(form: str) -> Iterator[tuple[str, str]]:
    words = form.replace(",", " , ").split()
    yield from pairwise(words)


def is_within(around: CellsAround) -> bool:
    """Whether the words before are those of a phrase that has begun."""
    before = around.asked.words_before
    return before[-1:] != ("=",) and "=" in before


def in_phrases(around: CellsAround) -> Votes:
    """Yield what fits behind the word of a phrase."""
    before = around.asked.words_before
    last, one_before = (("", "", *before)[-1], ("", "", *before)[-2])
    if last in ("tap", "first") or (last == "=" and around.asked.word_after == ","):
        yield around.own, CERTAIN
        yield from ((sent_by(word), LIKELY) for word in ("Tab", "Enter") if not around.own)
    elif last == "then":
        yield from ((sent_by(word), LIKELY) for word in ("Enter", "Tab"))
    elif last in ("hold", "once", "with"):
        yield from _modifiers(around, last)
    elif last == "second":
        yield from ((f"{sent_by('Ctrl')}+{letter}", LIKELY) for letter in "WZQ")
    elif one_before == "with":
        yield from _instead(around, last)


def _modifiers(around: CellsAround, word: str) -> Votes:
    """Yield modifiers, first one that a single key holds: hands often mirror each other."""
    counts = Counter(
        sent_by(after)
        for layer in around.layers.values()
        for phrase in layer.values()
        for before, after in pairwise(phrase)
        if before == word
    )
    here = [*around.asked.words_before, *around.asked.words_after]
    counts.update(sent_by(b) for a, b in pairwise(here) if a == word)
    for place, name in enumerate(MODIFIERS):
        mine = sum(counts[sent_by(one)] for one in MODIFIERS if _kind(one) == _kind(name))
        is_single = mine == 1 and word == "hold"
        yield sent_by(name), CERTAIN - place + is_single * SURE - mine * 1.5


def _kind(modifier: str) -> int:
    """Return the bit of the modifier on the left side."""
    bit = modifier_bit(usage_of(modifier) or 0)
    return bit >> LEFT_ONES if bit >> LEFT_ONES else bit


def _instead(around: CellsAround, modifier: str) -> Votes:
    """Yield what is like the cell before, and what comes with a modifier elsewhere."""
    phrase = around.asked.words_before
    cell = sent_by(phrase[phrase.index("=") + 1]) if "=" in phrase[:-1] else ""
    for one, other in (*INSTEAD.items(), (COMMANDS["undo"], COMMANDS["redo"])):
        if cell == sent_by(one):
            yield sent_by(other), SURE
    if is_word(apart(cell)[1]) and modifier_bit(usage_of(modifier) or 0):
        yield f"{sent_by('Ctrl')}+{apart(cell)[1]}", LIKELY
        yield f"{apart(cell)[0]}{sent_by('Shift')}+{apart(cell)[1]}", LIKELY / 2
