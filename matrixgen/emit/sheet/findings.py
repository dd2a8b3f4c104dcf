"""What was found in a file, as its sheet lists it and marks it at keys and wires."""

from __future__ import annotations

import re
from collections.abc import Iterable

from matrixgen.model import Diagnostic, Keyboard
from matrixgen.record import Record

_QUOTED = re.compile(r"`([^`]+)`")

MOST_LISTED = 300
"""How many findings a page lists and marks: the first ones, errors before all others."""

WIRE_STYLE = (
    ".wire[data-wire={0}] .edge, .controller-wire[data-wire={0}] .edge "
    "{{ stroke: var(--found); stroke-width: 2.6; }}"
)
SWITCH_STYLE = ".switch[data-key={}] .body {{ stroke: var(--found); stroke-width: 1.4; }}"


class Finding(Record, kw_only=True):
    """A finding of the list: its number there, its name and text, and what it is marked at."""

    number: int
    severity: str
    slug: str
    message: str
    line: int
    keys: tuple[str, ...]
    wires: tuple[str, ...]


def findings_of(keyboard: Keyboard, found: Iterable[Diagnostic]) -> tuple[Finding, ...]:
    """Return the first findings of a file, errors before others, with what each one names."""
    ordered = sorted(found, key=lambda one: not one.is_error)[:MOST_LISTED]
    return tuple(_finding(keyboard, number, one) for number, one in enumerate(ordered, 1))


def _finding(keyboard: Keyboard, number: int, found: Diagnostic) -> Finding:
    named = found.about | set(_QUOTED.findall(found.message))
    return Finding(
        number=number,
        severity=found.severity.value,
        slug=found.slug,
        message=found.message,
        line=found.span.line,
        keys=tuple(key.name.text for key in keyboard.keys if key.name.text in named),
        wires=tuple(
            line.name.text
            for line in keyboard.wiring.lines
            if line.name.text in named or line.name.span.start[0] == found.span.line
        ),
    )


def key_marks(findings: Iterable[Finding]) -> dict[str, str]:
    """Return the numbers of the findings at each key that has any, such as `!1,3`."""
    return _marks((name, one.number) for one in findings for name in one.keys)


def wire_marks(findings: Iterable[Finding]) -> dict[str, str]:
    """Return the same of each wire."""
    return _marks((name, one.number) for one in findings for name in one.wires)


def _marks(places: Iterable[tuple[str, int]]) -> dict[str, str]:
    numbers: dict[str, list[str]] = {}
    for name, number in places:
        numbers.setdefault(name, []).append(str(number))
    return {name: f"!{','.join(found)}" for name, found in numbers.items()}


def back_style(findings: Iterable[Finding]) -> str:
    """Return the rules of a style sheet that mark wires and switches on the drawing of the back."""
    findings = tuple(findings)
    rules = [WIRE_STYLE.format(_string(name)) for name in wire_marks(findings)]
    rules += [SWITCH_STYLE.format(_string(name)) for name in key_marks(findings)]
    return "".join(f"{rule}\n" for rule in rules)


def _string(name: str) -> str:
    r"""Return a name as a string of CSS: what is neither a letter nor a digit as `\2e `."""
    shown = (one if one.isascii() and one.isalnum() else f"\\{ord(one):x} " for one in name)
    return f'"{"".join(shown)}"'
