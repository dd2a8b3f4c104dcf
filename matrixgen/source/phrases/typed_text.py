"""`type "TEXT"`: a text, and the strokes by which the computer's layout types it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Typed
from matrixgen.source.letters import composed, pieces_of
from matrixgen.source.patterns import pattern
from matrixgen.source.phrases import typed_sign
from matrixgen.source.reporter import tokens
from matrixgen.usages.key_stroke import KeyStroke

if TYPE_CHECKING:
    from matrixgen.layouts import HostLayout
    from matrixgen.model.text import Word
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node, Token

LINE_END = r"(?<!\\)((?:\\\\)*)\\([nrt])"
"""A backslash before one of these letters, and an even number of them before it."""

DRIVE = r"[A-Za-z]:\\"
"""The start of a path on Windows."""


def read(scope: Scope, said: Node) -> Typed | None:
    """Return a text with its strokes; report what the computer's layout cannot type."""
    token = tokens(said)[0]
    word, layout = scope.reporter.text(token), scope.letters.layout
    if not _has_fit_length(scope, word):
        return None
    if layout is None:
        _report_no_computer(scope, word)
        return None
    typed_sign.check_composed(scope, token)
    _check_line_ends(scope, token)
    return _with_strokes(scope, layout, token, composed(word.text))


def _has_fit_length(scope: Scope, word: Word) -> bool:
    """Whether a text has letters, and not too many; report it where that is not so."""
    most, count = scope.reporter.limits.text_letters, len(word.text)
    if count > most:
        message = f"this text has {count:,} letters; at most {most:,} are allowed"
        help = "leave long texts to the computer, or type them in parts, by several keys"
        scope.reporter.report("over-the-limit", word.span, message, help=help)
    elif not count:
        help = "write what it types between the quotes, or `nothing` for a key that is dead"
        scope.reporter.report("empty-text", word.span, "this text is empty", help=help)
    return 0 < count <= most


def _report_no_computer(scope: Scope, word: Word) -> None:
    """Report that the file does not say what the computer is set to, once."""
    if scope.letters.is_lost:
        return
    scope.letters.is_lost = True
    scope.reporter.report(
        "missing-statement",
        word.span,
        "what types a text depends on the layout that the computer is set to",
        help="write it in the block `keyboard`, as in `computer us`; `matrixgen layouts` lists all",
    )


def _check_line_ends(scope: Scope, token: Token) -> None:
    """Warn of the first line end or tab that is written as other languages have it."""
    found = pattern(LINE_END).search(token) if "\\" in token else None
    if found and not pattern(DRIVE).search(token):
        shown = found[2]
        key = "Tab" if shown == "t" else "Enter"
        scope.reporter.report(
            "line-end-in-text",
            scope.reporter.part(token, found.start(2) - 1, 2),
            f"`\\{shown}` types a backslash and the letter {shown}",
            help=(
                f'for the key {key} write `type "TEXT", then {key}`',
                f"write `\\\\{shown}` if the backslash is meant",
            ),
        )


def _with_strokes(scope: Scope, layout: HostLayout, token: Token, text: str) -> Typed | None:
    """Return a composed text with its strokes; report its letters that have none, at the first."""
    ways = {sign: layout.way(sign) for sign in dict.fromkeys(text)}
    missing = [sign for sign, way in ways.items() if way is None]
    if missing:
        place, length = place_of(token, missing[0])
        span = scope.reporter.part(token, place, length)
        typed_sign.report_untypable(scope, layout, missing, span)
        return None
    strokes = list[KeyStroke]()
    for sign in text:
        strokes += ways[sign] or ()
    return Typed(text, tuple(strokes))


def place_of(token: str, sign: str) -> tuple[int, int]:
    """Return where a sign of a text in quotes is first written, and in how many characters."""
    inside = token[:-1]
    pieces = ((at, length) for at, length in pieces_of(inside) if at)
    return next((at, n) for at, n in pieces if sign in composed(inside[at : at + n]))
