"""What types one letter or sign, or a text, by the computer's layout."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from matrixgen.model.actions import InTurn, Press, Typed
from matrixgen.model.diagnostic import Fix, Note
from matrixgen.model.prose import counted, listed
from matrixgen.model.text import Edit
from matrixgen.source.letters import composed, is_composed, pieces_of, unquoted
from matrixgen.usages import usage_of

if TYPE_CHECKING:
    from matrixgen.layouts import HostLayout, System
    from matrixgen.model.text import Span
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Token


PLAIN = {
    **dict.fromkeys("\u00a0\u2002\u2003\u2009\u202f", " "),
    **dict.fromkeys("\u2018\u2019\u201a", "'"),
    **dict.fromkeys("\u201c\u201d\u201e", '\\"'),
    **dict.fromkeys("\u2010\u2011\u2013\u2014\u2212", "-"),
    "\u2026": "...",
}
"""What is written for signs that word processors put in, as a text in quotes has it."""

MOST_NAMED = 5
"""Of the other letters that cannot be typed, so many are named (a choice)."""


def read(scope: Scope, token: Token) -> Press | InTurn | None:
    """Return what makes one letter or sign appear: a press, or after a dead key two in turn."""
    sign, span = unquoted(composed(token)), scope.reporter.span(token)
    way = scope.letters.way_of_cell(sign)
    if way is None:
        assert scope.letters.layout
        report_untypable(scope, scope.letters.layout, [sign], span, is_cell=True)
        return None
    check_composed(scope, token)
    if len(way) > 1:
        return InTurn((Typed(str(sign), way),))
    return Press(way[0].usage, way[0].modifiers)


def check_composed(scope: Scope, token: Token) -> None:
    """Warn of letters that are written apart from their accents; the file means them as one."""
    if composed(token) == token:
        return
    reporter, pieces = scope.reporter, list(pieces_of(token))
    apart = [(at, length) for at, length in pieces if not is_composed(token[at : at + length])]
    edits = [Edit(reporter.part(token, *one), composed(token[one[0] : sum(one)])) for one in apart]
    reporter.report(
        "accent-apart",
        edits[0].span,
        f"`{edits[0].text[:1]}` is written as a letter and an accent, two characters",
        help="write it as one character, which looks the same",
        fix=Fix("write letters and their accents as one character", tuple(edits)),
    )


def report_untypable(
    scope: Scope,
    layout: HostLayout,
    signs: Sequence[str],
    span: Span,
    *,
    is_cell: bool = False,
) -> None:
    """Report letters or signs that the layout has no way to type, or no common one.

    The finding is about the first; `span` is where that is.
    """
    from matrixgen.layouts.strokes import SYSTEM_WORDS

    sign, *others = signs
    systems = [] if layout.system else _systems_with(layout, sign)
    if "linux" in systems and "windows" in systems:
        message = f"{called(sign)} is typed in another way on each system"
    elif systems:
        where = listed([SYSTEM_WORDS[one] for one in systems])
        message = f"{called(sign)} is known in the layout `{layout.name}` only on {where}"
    else:
        on = f" on {SYSTEM_WORDS[layout.system]}" if layout.system else ""
        message = f"the layout `{layout.name}` has no way to type {called(sign)}{on}"
    scope.reporter.report(
        "untypable-sign",
        span,
        message,
        help=_helps(layout, sign, systems, is_cell=is_cell),
        notes=[Note(f"the same goes for {_some(others)}")] if others else (),
    )


def called(sign: str) -> str:
    """Return a sign in backticks and its Unicode name, or else its number."""
    name = unicodedata.name(sign, "").lower() or f"U+{ord(sign):04X}"
    return f"{_shown(sign)} ({name})"


def _shown(sign: str) -> str:
    """Return a sign in backticks; an accent has a dotted circle to stand on."""
    return f"`\u25cc{sign}`" if unicodedata.combining(sign) else f"`{sign}`"


def _some(signs: Sequence[str]) -> str:
    if len(signs) <= MOST_NAMED:
        return listed(map(_shown, signs))
    rest = counted(len(signs) - MOST_NAMED, "more of its letters", "more of its letters")
    return f"{', '.join(map(_shown, signs[:MOST_NAMED]))} and {rest}"


def _systems_with(layout: HostLayout, sign: str) -> list[System]:
    """Return the systems on which the layout has a way to a sign, each its own."""
    from matrixgen.layouts import SYSTEMS, layout_named

    there = [(system, layout_named(layout.name, system)) for system in SYSTEMS]
    return [system for system, one in there if one and one.way(sign)]


def _helps(
    layout: HostLayout, sign: str, systems: Sequence[System], *, is_cell: bool
) -> Iterator[str]:
    """Yield what to write instead of a sign, and where to look what there is."""
    if sign in PLAIN and all(map(layout.way, PLAIN[sign].replace("\\", ""))):
        yield f"write `{PLAIN[sign]}`" if PLAIN[sign].strip() else "write a plain space"
    if systems:
        yield f"name the computer's, as in `computer {layout.name} on {systems[0]}`"
        return
    if not layout.has_latin and sign.isascii() and sign.isalpha():
        yield f"`{layout.name}` has no Latin letters; people switch to another for them"
        usage = usage_of(sign)
        if is_cell and usage and (own := layout.signs(usage)[0]):
            yield f"the key that types `{sign}` on a US layout types `{own}`"
    name = f"'{layout.name}'" if "(" in layout.name else layout.name
    yield f"`matrixgen layouts {name}` shows what it has"
