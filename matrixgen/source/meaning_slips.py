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


SLIPS = (
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
        if found.start(1) <= mistake.place <= found.end():
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
