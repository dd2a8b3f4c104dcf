"""What every fix leaves in a file: whatever was written or could be read before is there after.

A fix changes one word into the word that was meant, adds what is missing, or puts right the signs
and blanks between words; a usage by its number may become its word. It deletes no statement and no
comment, makes and loses no key, and leaves numbers as they are. Both texts are compared here,
whatever the fix says that it does.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from matrixgen.model import SourceText
from matrixgen.source.patterns import pattern
from matrixgen.source.tree import FileTree, Statement, every_statement
from matrixgen.source.tree_reader import comments_of, tree_of
from matrixgen.usages import words_of
from matrixgen.usages.media import media_words_of
from matrixgen.usages.numbered import KEYBOARD

_WORD = r'"(?:[^"\\]|\\.)*"|[^\s,=:+"]+'
_NUMERAL = r"\d+(?:[.,]\d+)*"
"""Digits, and what may part those of one number: `1,5` is one, whatever it was meant to be."""

_NUMBERED = r"\busage 0x([0-9A-Fa-f]+) 0x([0-9A-Fa-f]+)"

Words = tuple[str, ...]


def keeps_comments(before: SourceText, after: SourceText) -> bool:
    """Whether a file has every comment that it had, in the same order."""
    return comments_of(before.original) == comments_of(after.original)


def keeps_all(before: SourceText, after: SourceText) -> bool:
    """Whether a file has everything that it had, but for one word that is another one now."""
    if not keeps_comments(before, after):
        return False
    old, new = tree_of(before), tree_of(after)
    words, words_now = list(_words_of(old)), list(_words_of(new))
    return (
        _numerals(words) == _numerals(words_now)
        and _is_kept(words, words_now)
        and _statements_are_kept(old, new)
        and not _in_plate(new) - Counter(words)
        and (
            before.original.count(",") == after.original.count(",")
            or not _strangers(new) - _strangers(old)
        )
    )


def _words(statement: Statement) -> Words:
    """Return a statement's words, without signs between them; a usage's number as its word."""
    text = pattern(_NUMBERED).sub(_worded, " ".join(statement.words))
    return tuple(pattern(_WORD).findall(text))


def _worded(found: re.Match[str]) -> str:
    """Return the word of a usage, or its phrase as it is where it has none."""
    page, usage = (int(number, 16) for number in found.groups())
    words = words_of(usage) if page == KEYBOARD else media_words_of(page, usage)
    return words[0] if words else found[0]


def _words_of(tree: FileTree) -> Iterator[str]:
    for statement in every_statement(tree):
        yield from _words(statement)


def _numerals(words: Iterable[str]) -> list[str]:
    return pattern(_NUMERAL).findall(" ".join(words))


def _is_kept(old: Sequence[str], new: Sequence[str]) -> bool:
    """Whether words are all there still, in order, but for one that may be another word now.

    More words may stand between them.
    """
    start, end = 0, 0
    while start < len(old) and old[start : start + 1] == new[start : start + 1]:
        start += 1
    while end < len(old) - start and end < len(new) - start and old[-1 - end] == new[-1 - end]:
        end += 1
    old, new = old[start : len(old) - end], new[start : len(new) - end]
    return _is_among(old, new) or any(
        _is_among([*old[:place], other, *old[place + 1 :]], new)
        for place in range(len(old))
        for other in new
    )


def _is_among(some: Sequence[str], all_: Sequence[str]) -> bool:
    """Whether all the words of `some` are in `all_`, in that order."""
    rest = iter(all_)
    return all(word in rest for word in some)


def _statements_are_kept(old: FileTree, new: FileTree) -> bool:
    """Whether every statement that could be read can be read as one of its kind still, in order."""
    rest = iter(every_statement(new))
    return all(
        any(one.rule == now.rule and _is_kept(_words(one), _words(now)) for now in rest)
        for one in every_statement(old)
        if one.rule is not None
    )


def _in_plate(tree: FileTree) -> Counter[str]:
    """Return what stands in the lines of the plate, their keys among it, and how often."""
    lines = (one for one in every_statement(tree) if one.rule == "plate_line")
    return Counter(word for line in lines for word in _words(line))


def _strangers(tree: FileTree) -> Counter[str]:
    """Return the words in the place of keys that no line of the plate has, whatever their capitals.

    They are pins, maybe, whose `on` was forgotten: a comma between two of them is not one too many.
    """
    each = list(every_statement(tree))
    typed = {word.casefold() for one in each if one.words[0] == "line" for word in _words(one)}
    listed = (word for one in each for word in _listed(one))
    return Counter(word for word in listed if typed and word.casefold() not in typed)


def _listed(statement: Statement) -> Iterator[str]:
    """Yield the keys that a statement lists; none of an `allow`, whose places may be others."""
    if statement.rule not in ("allow", "plate_line", "entries"):
        yield from statement.named("KEY")
