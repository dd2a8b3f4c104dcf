"""Slips that can be made in many statements: a decimal comma, a sign too many, a word in two."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Fix
from matrixgen.model.text import Edit
from matrixgen.source.meaning_slips import report_meaning_slip
from matrixgen.source.patterns import pattern
from matrixgen.source.slip import span_in
from matrixgen.source.statements import KEYWORDS
from matrixgen.source.turn_slips import report_layout_slip, report_turn_slip
from matrixgen.usages import is_word

if TYPE_CHECKING:
    from matrixgen.source.parser import Mistake
    from matrixgen.source.reporter import Reporter

_BEFORE_NUMBER = (
    r"(?:[:~]|(?<=\d)x|"
    r"\b(?:in|down|debounce|press|lasts|settle|turned|about|after|roll|pace|wait|within)[ \t]+)"
)
_DECIMAL_COMMA = rf"{_BEFORE_NUMBER}(-?\d+,\d+)"
"""A number with a comma where just one number can stand; group 1 is the number."""

_PINS_WITHOUT_ON = (
    r"[ \t]+(?:row|column)[ \t]+\S+[ \t]+"
    r"([A-Za-z]{1,4}\d{1,2}(?:[ \t]*,[ \t]*[A-Za-z]{1,4}\d{1,2})+)(?![\w.,])"
)
"""A wire whose first words look like the pins on several controllers; group 1 are those."""

_SETTINGS = frozenset(
    (
        *("controller", "debounce", "maker", "usb", "once", "remember", "pace", "computer"),
        *("pointer", "wheel"),
        "drive",
        "diodes",
        "settle",
    )
)
"""Statements that set one thing. Of one that names keys, `=` may be meant as the key."""

_WORD = r"[^\s,=:+#]+"
_MOST_WORDS = 3
"""Of how many words a key's name may be made up: `ScanNextTrack` of three."""


def report_slip(reporter: Reporter, mistake: Mistake, block: str | None) -> bool:
    """Report a broken line that one of these slips broke; False where none did."""
    return (
        _report_decimal_comma(reporter, mistake)
        or (block == "wiring" and _report_pins_without_on(reporter, mistake))
        or _report_sign_after_keyword(reporter, mistake, block)
        or (block == "keyboard" and report_layout_slip(reporter, mistake))
        or (block in ("actions", "layer") and report_meaning_slip(reporter, mistake))
        or (block in ("actions", "layer") and report_turn_slip(reporter, mistake))
        or (block in ("actions", "layer") and _report_word_in_two(reporter, mistake))
    )


def _report_decimal_comma(reporter: Reporter, mistake: Mistake) -> bool:
    for found in pattern(_DECIMAL_COMMA).finditer(mistake.dropped):
        if found.start(1) <= mistake.place < found.end(1):
            number = found.group(1)
            reporter.report(
                "syntax",
                span_in(reporter, mistake, found.start(1), len(number)),
                f"`{number}` has a comma where a number has a point",
                help=f"write `{number.replace(',', '.')}`",
            )
            return True
    return False


def _report_pins_without_on(reporter: Reporter, mistake: Mistake) -> bool:
    """Report a comma after what may be a wire's pins or its keys: `row r0 PD0, GP2 A B`."""
    found = pattern(_PINS_WITHOUT_ON).match(mistake.dropped)
    if not found or not mistake.found.startswith(",") or not found.start(1) < mistake.place:
        return False
    reporter.report(
        "syntax",
        span_in(reporter, mistake, mistake.place, 1),
        "`,` does not belong between the names of keys",
        help=(
            f"write `on {found.group(1)}` if these are pins",
            "put spaces between keys; the key for a comma is called `Comma`",
        ),
    )
    return True


def _report_sign_after_keyword(reporter: Reporter, mistake: Mistake, block: str | None) -> bool:
    """Report `controller = NAME` and the like: only keys and actions are followed by `=`."""
    first, sign = mistake.first_word, mistake.dropped[mistake.place : mistake.place + 1]
    keyword = first.rstrip(":=")
    before = mistake.dropped[: mistake.place].rstrip(" \t:=")
    if (
        keyword not in _SETTINGS
        or keyword not in KEYWORDS.get(block or "", ())
        or sign not in ("=", ":")
        or before.strip() != keyword
    ):
        return False
    after = mistake.dropped[mistake.place + 1 :]
    blanks = len(after) - len(after.lstrip(" \t"))
    if not after[blanks : blanks + 1].strip("#\n"):
        return False
    gap = "" if mistake.dropped[mistake.place - 1].isspace() else " "
    place = span_in(reporter, mistake, mistake.place, 1)
    edit = Edit(span_in(reporter, mistake, mistake.place, 1 + blanks), gap)
    reporter.report(
        "syntax",
        place,
        f"no `{sign}` comes after `{keyword}`",
        help="write a space in its place",
        fix=Fix(f"write a space for `{sign}`", (edit,)),
    )
    return True


def _report_word_in_two(reporter: Reporter, mistake: Mistake) -> bool:
    """Report the name of a key that blanks part, where a word ends the line that should not."""
    start = mistake.dropped.rfind("\n", 0, mistake.place) + 1
    line = mistake.dropped[start:].partition("\n")[0].partition("#")[0]
    words = list(pattern(_WORD).finditer(line))
    at = next((n for n, word in enumerate(words) if word.end() + start > mistake.place), None)
    if at is None:
        return False
    for first, last in (*_stretches(at, len(words)), *_stretches(at - 1, at)):
        said = line[words[first].start() : words[last].end()]
        if joined := joined_name(said.split()):
            reporter.report(
                "syntax",
                span_in(reporter, mistake, start + words[first].start(), len(said)),
                f"`{said}` is {last - first + 1} words, and the name of a key is one",
                help=f"write `{joined}`",
            )
            return True
    return False


def _stretches(at: int, count: int) -> list[tuple[int, int]]:
    """Return the first and last place of each stretch of words with number `at`, longest first."""
    places = [
        (first, first + length - 1)
        for length in range(_MOST_WORDS, 1, -1)
        for first in range(at - length + 1, at + 1)
    ]
    return [(first, last) for first, last in places if first >= 0 and last < count]


def joined_name(words: list[str]) -> str | None:
    """Return the name of a key or media key that words make up without the blanks between them."""
    joined = "".join(words)
    return joined if len(words) > 1 and is_word(joined) else None
