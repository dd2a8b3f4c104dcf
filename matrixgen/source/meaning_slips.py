"""Slips in keys that do one thing or another: a phrase where a name has to be, a comma missing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.source.slip import UNFIT_PHRASE, Slip, report_first_of, report_no_comma

if TYPE_CHECKING:
    from matrixgen.source.parser import Mistake
    from matrixgen.source.reporter import Reporter

_WITH = r",[ \t]*with[ \t]+[^\s,=#]+"
_CELL = r"(?:type[ \t]+\"[^\"\n]*\"|[^\s,=#]+)"
_LONE_WITH = r"=[^#=\n]*?[^\s,=]([ \t]+)with[ \t]+(?=[^\s=,#]+[ \t]+[^\s=,#])"
"""A `with` that no comma comes before; group 1 is what is there."""


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
        rf"{_WITH}[ \t]+({UNFIT_PHRASE})",
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
    help = "write each after a comma and `with`, as in `Backspace, with Shift Delete`"
    return report_first_of(reporter, mistake, SLIPS) or report_no_comma(
        reporter, mistake, _LONE_WITH, "with", help
    )
