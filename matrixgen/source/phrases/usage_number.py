"""`usage PAGE NUMBER`: a key or a media key that has no word, by its number in the usage tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Media, Press
from matrixgen.model.diagnostic import Fix
from matrixgen.model.text import Edit
from matrixgen.source.letters import NEED_QUOTES
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.reporter import tokens
from matrixgen.usages import modifier_bit, words_of
from matrixgen.usages.key_stroke import KeyStroke
from matrixgen.usages.media import media_words_of
from matrixgen.usages.numbered import KEYBOARD, PAGES, digits

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node


def read(scope: Scope, phrase: Node) -> Press | Media | None:
    """Return what the number stands for; report a number that no report has, or that has a word."""
    page, usage = (int(token, 16) for token in tokens(phrase))
    if not _is_sent(scope, phrase, page, usage):
        return None
    _check_wordless(scope, phrase, page, usage)
    if page != KEYBOARD:
        return Media(page, usage)
    bit = modifier_bit(usage)
    return Press(0, bit) if bit else Press(usage)


def _is_sent(scope: Scope, phrase: Node, page: int, usage: int) -> bool:
    """Whether a report has the usage; report it where none has."""
    reporter, (first, second) = scope.reporter, tokens(phrase)
    known = PAGES.get(page)
    if known is None:
        pages = [f"0x{number:02X} ({one.name})" for number, one in PAGES.items()]
        reporter.report(
            "page-without-report",
            reporter.span(first),
            f"no report of a keyboard has usages of the page `{first}`",
            help=f"the pages are {', '.join(pages[:-1])} and {pages[-1]}",
        )
        return False
    if known.first <= usage <= known.last:
        return True
    least, most = digits(page, known.first), digits(page, known.last)
    reporter.report(
        "number-out-of-range",
        reporter.span(second),
        f"the usage is `{second}`; one of the {known.name} is from {least} to {most}",
    )
    return False


def _check_wordless(scope: Scope, phrase: Node, page: int, usage: int) -> None:
    """Warn of a number that has a word, and offer that."""
    word = _word(scope, page, usage)
    if word is None:
        return
    span = scope.reporter.whole(phrase)
    is_whole = span.line == span.end_line  # else a comment may be within
    scope.reporter.report(
        "number-for-a-word",
        span,
        f"this number has a word: `{word}`",
        help=f"write `{word}`",
        fix=Fix(f"write `{word}` for the number", (Edit(span, word),)) if is_whole else None,
    )


def _word(scope: Scope, page: int, usage: int) -> str | None:
    """Return the word that means the same in this file; None where there is none."""
    words = words_of(usage) if page == KEYBOARD else media_words_of(page, usage)
    layout = scope.letters.layout
    fit = (word for word in words if layout is None or len(word) > 1)
    return next(fit, None) or _sign(scope, usage)


def _sign(scope: Scope, usage: int) -> str | None:
    """Return the sign by which the computer's layout has a key; None where that is no one key."""
    layout = scope.letters.layout
    sign = layout.signs(usage)[0] if layout else None
    if not sign or scope.letters.way_of_cell(sign) != (KeyStroke(usage),):
        return None
    if sign in NEED_QUOTES:
        return '"\\""' if sign == '"' else f'"{sign}"'
    return sign.upper() if sign.isalpha() else sign


PHRASE = Phrase(
    rule="usage",
    behaviour=Media,
    form="usage PAGE NUMBER",
    read=read,
)
