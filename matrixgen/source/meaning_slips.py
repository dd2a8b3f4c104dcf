"""Slips in keys that do one thing or another: a phrase where a name has to be, a comma missing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Fix
from matrixgen.model.text import Edit
from matrixgen.record import Record
from matrixgen.source.patterns import pattern
from matrixgen.source.put_aside import span_in

if TYPE_CHECKING:
    from matrixgen.source.parser import Mistake
    from matrixgen.source.reporter import Reporter

_PHRASE = (
    r"(?:hold[ \t]+layer|latch[ \t]+layer|unlatch[ \t]+layers|once|change[ \t]+base[ \t]+to"
    r"|tap|start[ \t]+boot[ \t]+loader)\b[ \t]*[^\s,=#]*"
)
"""The beginning of a phrase that no single word can be."""

_WITH = r",[ \t]*with[ \t]+[^\s,=#]+"
_CELL = r"(?:type[ \t]+\"[^\"\n]*\"|[^\s,=#]+)"
_LONE_WITH = r"=[^#=\n]*?[^\s,=]([ \t]+)with[ \t]+(?=[^\s=,#]+[ \t]+[^\s=,#])"
"""A `with` that no comma comes before; group 1 is what is there."""


class Slip(Record):
    """What a broken line may have: a pattern whose group 1 is wrong, and what is said of it."""

    form: str
    slug: str
    message: str
    help: str


_PRESS = r"(?:first|second|third)"

SLIPS = (
    Slip(
        rf"\b(?:tap|hold)[ \t]+(first)[ \t]+{_CELL}",
        "unfit-tap-or-hold",
        "a tap or a hold cannot wait for another press",
        "one key waits for one thing: write `tap A, hold B`, or `first A, second B`",
    ),
    Slip(
        r"\bhold\b[^=\n#]*?,[ \t]*((?:second|third)\b)",
        "syntax",
        "a key with a hold has no `{found}` press",
        "one key waits for one thing: write `first A, second B` without a tap and a hold",
    ),
    Slip(
        rf"\b{_PRESS}[ \t]+(tap[ \t]+[^\s,=#]+)",
        "unfit-press",
        "a press cannot wait to be a tap or a hold",
        "one key waits for one thing: write `first A, second B`, or `tap A, hold B`",
    ),
    Slip(
        rf"\b{_PRESS}[ \t]+({_PRESS})\b[ \t]+{_CELL}[ \t]*,?",
        "unfit-press",
        "a press cannot wait for more presses itself",
        "write what each of them does, as in `first A, second B, third C`",
    ),
    Slip(
        rf"\bfirst[ \t]+{_CELL}[ \t]*(=)",
        "syntax",
        "expected `, second`, found `{found}`",
        "write `first ACTION, second ACTION`, as in `first Esc, second CapsLock`",
    ),
    Slip(
        rf"\bfirst[ \t]+{_CELL}[ \t]*,[ \t]*(third)\b",
        "syntax",
        "there is a third press and no second",
        "write `first A, second B, third C`; where two do the same, write it twice",
    ),
    Slip(
        rf"=[ \t]*{_CELL}[ \t]*,[ \t]*((?:second|third)\b)",
        "syntax",
        "the first press has no word `first`",
        "write `first A, second B`",
    ),
    Slip(
        rf"\b{_PRESS}[ \t]+{_CELL}[ \t]*,[ \t]*(with|then)\b",
        "syntax",
        "what has more than one word within a press needs a name",
        "write it in the block `actions`, as in `erase = Backspace, with Shift Delete`, "
        "and its name here",
    ),
    Slip(
        rf"\btap[ \t]+{_CELL}[ \t]*,[ \t]*(with)\b",
        "syntax",
        "what goes by a modifier within a tap needs a name",
        "write it in the block `actions`, as in `erase = Backspace, with Shift Delete`, "
        "and its name after `tap`",
    ),
    Slip(
        rf"\bhold[ \t]+{_CELL}[ \t]*,[ \t]*(with)\b",
        "syntax",
        "what goes by a modifier within a hold needs a name",
        "write it in the block `actions`, as in `erase = Backspace, with Shift Delete`, "
        "and its name after `hold`",
    ),
    Slip(
        rf"{_WITH}[ \t]+({_PHRASE})",
        "unfit-with",
        "`{found}` types nothing, so it cannot go by a modifier",
        "each is a key, modifiers and a key, a media key, or the name of one or of a text",
    ),
    Slip(
        rf"{_WITH}[ \t]+{_CELL}[ \t]*,[ \t]*(then)\b",
        "syntax",
        "what is done in turn with a modifier needs a name",
        "write it in the block `actions`, as in `reply = Ctrl+R, then Enter`, and its name here",
    ),
)


def report_meaning_slip(reporter: Reporter, mistake: Mistake) -> bool:
    """Report a broken line that one of these slips broke; False where none did."""
    return any(_report(reporter, mistake, one) for one in SLIPS) or _lone(reporter, mistake)


def _report(reporter: Reporter, mistake: Mistake, slip: Slip) -> bool:
    for found in pattern(slip.form).finditer(mistake.dropped):
        before = mistake.dropped[: found.start(1)].rstrip()
        begin = len(before.removesuffix(",")) if before.endswith(",") else found.start(1)
        if begin <= mistake.place <= found.end():
            said = found[1].rstrip()
            span = span_in(reporter, mistake, found.start(1), len(said))
            reporter.report(slip.slug, span, slip.message.format(found=said), help=slip.help)
            return True
    return False


def _lone(reporter: Reporter, mistake: Mistake) -> bool:
    """Report a `with` without its comma."""
    for found in pattern(_LONE_WITH).finditer(mistake.dropped):
        word = found.end(1)
        if word <= mistake.place <= found.end():
            edit = Edit(span_in(reporter, mistake, found.start(1), 0), ",")
            reporter.report(
                "syntax",
                span_in(reporter, mistake, word, len("with")),
                "there is no comma before `with`",
                help="write each after a comma and `with`, as in `Backspace, with Shift Delete`",
                fix=Fix("write a comma before `with`", (edit,)),
            )
            return True
    return False
