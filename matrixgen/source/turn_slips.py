"""Slips in what a key types in turn, such as a text without its quotes, and in a layout's name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Fix
from matrixgen.model.text import Edit
from matrixgen.source.patterns import pattern
from matrixgen.source.slip import (
    UNFIT_PHRASE,
    Slip,
    report_first_of,
    report_no_comma,
    span_in,
)

if TYPE_CHECKING:
    from matrixgen.source.parser import Mistake
    from matrixgen.source.reporter import Reporter

_VALUE = r"(?:=[ \t]*|\bthen[ \t]+|\btap[ \t]+|\bhold[ \t]+)"
"""What a phrase comes after."""

_BARE_TEXT = (
    rf"{_VALUE}[Tt]ype[ \t]+([^\s\"=,#][^=\n#]*?)"
    r"[ \t]*(?=,[ \t]*(?:then|hold)\b|[\n#]|$|\S+[ \t]*=)"
)
"""`type` and a text that is in no plain quotes; group 1 is the text."""

_QUOTES = "'`\u00b4\u2018\u2019\u201a\u201c\u201d\u201e\u00ab\u00bb\u2039\u203a"

_LONE_THEN = r"(?<=[^\s,=])([ \t]+)then(?:[ \t]+(?=[^\s=,#])|(?=[ \t]*(?:#|$|\n)))"
"""A `then` that no comma comes before; group 1 is what stands there."""

_TAP = r"tap\b[ \t]*[^\s,=#]*"
_NO_STEP = "`{found}` cannot be one of several things in turn"
_AFTER_TAP = (
    "write it in the block `actions`, as in `reply = Ctrl+R, then Enter`, and its name after `tap`"
)
_STEPS = "each is a key, modifiers and a key, a text or a wait, as in `Ctrl+K, then Enter`"
_BEGINS = r"(?:=|\bthen[ \t])[ \t]*"
_REST = r"[\s\S]*"

FIRST_SLIPS = (
    Slip(rf",[ \t]*then[ \t]+({_TAP})", "unfit-step", _NO_STEP, _AFTER_TAP),
    Slip(rf",[ \t]*then[ \t]+({UNFIT_PHRASE})", "unfit-step", _NO_STEP, _STEPS),
    Slip(
        rf"=[ \t]*({_TAP})[ \t]*,[ \t]*then\b",
        "unfit-step",
        "what is done in turn within a tap needs a name",
        _AFTER_TAP,
    ),
    Slip(rf"=[ \t]*({UNFIT_PHRASE})[ \t]*,[ \t]*then\b", "unfit-step", _NO_STEP, _STEPS),
    Slip(
        rf"{_BEGINS}([A-Za-z+]+\+\"[^\"\n]*\"){_REST}",
        "syntax",
        "nothing can be combined with a text",
        'modifiers are pressed with a key, as in `Ctrl+K`; a text is written `type "TEXT"`',
    ),
)
LAST_SLIPS = (
    Slip(
        rf"=[ \t]*(wait[ \t]+\d+[ \t]*(?:ms\b)?){_REST}",
        "syntax",
        "a key cannot begin with a wait",
        "a wait comes between two presses, as in `Ctrl+K, then wait 50 ms, then Enter`",
    ),
    Slip(
        rf"{_BEGINS}((?:pause|delay|sleep)[ \t]+\d+[ \t]*(?:ms\b)?){_REST}",
        "syntax",
        "a wait is written `wait N ms`",
        "write it between two presses, as in `Ctrl+K, then wait 50 ms, then Enter`",
    ),
    Slip(
        rf"{_BEGINS}(type(?:[ \t]*[:=][ \t]*)?\"){_REST}",
        "syntax",
        "only a space comes between `type` and its text",
        'write `type "TEXT"`',
    ),
    Slip(
        rf"=[ \t]*(then)[ \t]+[^\s=]{_REST}",
        "syntax",
        "nothing comes before `then`",
        "write the first press before it, as in `Ctrl+K, then Enter`",
    ),
)
"""What may break a line, before and after texts without quotes and `then` without a comma."""

_LAYOUT = r"[ \t]*computer[ \t]+([^\s#,\"=(][^\s#,]*)"
"""A layout's name with more signs in it than one has; group 1 is all of it."""


def report_layout_slip(reporter: Reporter, mistake: Mistake) -> bool:
    """Report a layout whose name is not well made; False where that did not break the line."""
    found = pattern(_LAYOUT).match(mistake.dropped)
    if not found or mistake.place != found.start(1):
        return False
    said, span = found[1], span_in(reporter, mistake, found.start(1), len(found[1]))
    _, sign, arrangement = said.partition("(")
    fix = None
    message = f"`{said}` is not the name of a layout"
    help = "write it as in `computer de` or `computer us(intl)`; `matrixgen layouts` lists all"
    if sign and arrangement.isalnum():
        message = f"`{said}` has a parenthesis that is not closed"
        help = f"write `{said})`"
        fix = Fix(help, (Edit(span, f"{said})"),))
    reporter.report("syntax", span, message, help=help, fix=fix)
    return True


def report_turn_slip(reporter: Reporter, mistake: Mistake) -> bool:
    """Report a broken line that one of these slips broke; False where none did."""
    help = "write each after a comma and `then`, as in `Ctrl+K, then Enter`"
    return (
        report_first_of(reporter, mistake, FIRST_SLIPS)
        or _report_bare_text(reporter, mistake)
        or report_no_comma(reporter, mistake, _LONE_THEN, "then", help)
        or report_first_of(reporter, mistake, LAST_SLIPS)
    )


def _report_bare_text(reporter: Reporter, mistake: Mistake) -> bool:
    for found in pattern(_BARE_TEXT).finditer(mistake.dropped):
        if found.start(1) <= mistake.place <= found.end():
            said = found[1]
            inside = said.strip(_QUOTES)
            is_quoted = inside != said
            escaped = inside.replace("\\", "\\\\").replace('"', '\\"')
            reporter.report(
                "syntax",
                span_in(reporter, mistake, found.start(1), len(said)),
                f"`{said}` is not in plain quotes" if is_quoted else f"`{said}` is not in quotes",
                help=f'write `type "{escaped}"`',
            )
            return True
    return False
