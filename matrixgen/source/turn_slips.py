"""Slips in what a key types in turn, such as a text without its quotes, and in a layout's name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Fix
from matrixgen.model.text import Edit
from matrixgen.source.patterns import pattern
from matrixgen.source.put_aside import span_in

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

_LONE_THEN = r"([^\s,=])([ \t]+)then(?:[ \t]+(?=[^\s=,#])|(?=[ \t]*(?:#|$|\n)))"
"""A `then` that no comma comes before; group 2 is what stands there."""

_OF_LAYERS = (
    r"(hold[ \t]+layer|latch[ \t]+layer|unlatch[ \t]+layers|once|change[ \t]+base[ \t]+to"
    r"|tap|start[ \t]+boot[ \t]+loader)\b([ \t]*[^\s,=#]*)"
)
_NO_STEP = rf",[ \t]*then[ \t]+({_OF_LAYERS})"
_NO_FIRST_STEP = rf"=[ \t]*({_OF_LAYERS})[ \t]*,[ \t]*then\b"
"""A phrase that cannot be one of several things in turn; group 1 is the phrase."""

_JOINED_TEXT = r"(?:=|\bthen[ \t])[ \t]*([A-Za-z+]+\+\"[^\"\n]*\")"
_FIRST_WAIT = r"=[ \t]*(wait[ \t]+\d+[ \t]*(?:ms\b)?)"
_OTHER_WAIT = r"(?:=|\bthen[ \t])[ \t]*((?:pause|delay|sleep)[ \t]+\d+[ \t]*(?:ms\b)?)"
_NO_BLANK = r"(?:=|\bthen[ \t])[ \t]*(type(?:[ \t]*[:=][ \t]*)?\")"
_FIRST_THEN = r"=[ \t]*(then)[ \t]+[^\s=]"


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
    return any(
        slip(reporter, mistake)
        for slip in (
            _report_no_step,
            _report_joined_text,
            _report_bare_text,
            _report_lone_then,
            _report_first_wait,
            _report_other_wait,
            _report_no_blank,
            _report_first_then,
        )
    )


def _report_no_step(reporter: Reporter, mistake: Mistake) -> bool:
    for form in (_NO_STEP, _NO_FIRST_STEP):
        for found in pattern(form).finditer(mistake.dropped):
            if found.start(1) <= mistake.place <= found.end():
                said = found[1].rstrip()
                is_tap = said.startswith("tap")
                reporter.report(
                    "unfit-step",
                    span_in(reporter, mistake, found.start(1), len(said)),
                    "what is done in turn within a tap needs a name"
                    if is_tap and form == _NO_FIRST_STEP
                    else f"`{said}` cannot be one of several things in turn",
                    help="write it in the block `actions`, as in `reply = Ctrl+R, then Enter`, "
                    "and its name after `tap`"
                    if is_tap
                    else "each is a key, modifiers and a key, a text or a wait, "
                    "as in `Ctrl+K, then Enter`",
                )
                return True
    return False


def _report_joined_text(reporter: Reporter, mistake: Mistake) -> bool:
    return _report_first(
        reporter,
        mistake,
        _JOINED_TEXT,
        "nothing can be combined with a text",
        'modifiers are pressed with a key, as in `Ctrl+K`; a text is written `type "TEXT"`',
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


def _report_lone_then(reporter: Reporter, mistake: Mistake) -> bool:
    for found in pattern(_LONE_THEN).finditer(mistake.dropped):
        before = mistake.dropped[: found.start(2)]
        then = found.end(2)
        after = found.end()
        if "=" in before and mistake.place in (then, after):
            edit = Edit(span_in(reporter, mistake, found.start(2), 0), ",")
            reporter.report(
                "syntax",
                span_in(reporter, mistake, then, 4),
                "there is no comma before `then`",
                help="write each after a comma and `then`, as in `Ctrl+K, then Enter`",
                fix=Fix("write a comma before `then`", (edit,)) if after > then + 4 else None,
            )
            return True
    return False


def _report_first_wait(reporter: Reporter, mistake: Mistake) -> bool:
    return _report_first(
        reporter,
        mistake,
        _FIRST_WAIT,
        "a key cannot begin with a wait",
        "a wait comes between two presses, as in `Ctrl+K, then wait 50 ms, then Enter`",
    )


def _report_other_wait(reporter: Reporter, mistake: Mistake) -> bool:
    """Report a wait by another word than the language's."""
    return _report_first(
        reporter,
        mistake,
        _OTHER_WAIT,
        "a wait is written `wait N ms`",
        "write it between two presses, as in `Ctrl+K, then wait 50 ms, then Enter`",
    )


def _report_no_blank(reporter: Reporter, mistake: Mistake) -> bool:
    return _report_first(
        reporter,
        mistake,
        _NO_BLANK,
        "only a space comes between `type` and its text",
        'write `type "TEXT"`',
    )


def _report_first_then(reporter: Reporter, mistake: Mistake) -> bool:
    return _report_first(
        reporter,
        mistake,
        _FIRST_THEN,
        "nothing comes before `then`",
        "write the first press before it, as in `Ctrl+K, then Enter`",
    )


def _report_first(reporter: Reporter, mistake: Mistake, form: str, message: str, help: str) -> bool:
    for found in pattern(form).finditer(mistake.dropped):
        if found.start(1) <= mistake.place <= len(mistake.dropped):
            span = span_in(reporter, mistake, found.start(1), len(found[1].rstrip()))
            reporter.report("syntax", span, message, help=help)
            return True
    return False
