"""The block `wiring`: the wires, the keys they visit, the diodes."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from matrixgen.model.keyboard import Axis, DiodeRule, Line, Wiring
from matrixgen.model.span import Number, Span, Word
from matrixgen.source.names import Names, in_range, near_help
from matrixgen.source.pins import check_pins
from matrixgen.source.reading import Reading, tokens, trees
from matrixgen.source.statements import statements_once

if TYPE_CHECKING:
    from lark import Token

    from matrixgen.source.parser import Node

_WIRE_FORM = "`row r0 on PD0 wire yellow Q W E`"
_LIKE_A_PIN = re.compile(r"[A-Za-z]{0,4}\d{1,2}")
ONCE = frozenset({"drive", "diodes", "settle"})
SETTLE_US = (0, 1000)

# IEC 60757 in full words, as they are printed on reels of wire.
COLOURS = (
    *("black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white"),
    *("pink", "gold", "turquoise", "silver"),
)


def wiring_of(reading: Reading, block: Node, keys: Names, controllers: tuple[Word, ...]) -> Wiring:
    """Return the block `wiring`; every key that it names has to be one of `keys`.

    Each line has to end on as many pins as there are `controllers`, or on none.
    """
    parts = trees(block)
    once = statements_once(reading, [part for part in parts if part.data in ONCE])
    span = reading.keyword(block, len("wiring"))
    diodes = _diodes(reading, once.get("diodes"))
    wires = [part for part in parts if part.data in ("row", "column")]
    drive, drive_span = _drive(reading, once.get("drive"), diodes, span)
    return Wiring(
        drive,
        drive_span,
        diodes,
        _exceptions(reading, parts, "without", keys),
        _exceptions(reading, parts, "reversed", keys),
        _settle(reading, once.get("settle")),
        _lines(reading, wires, keys, controllers),
        span,
    )


def known_key(reading: Reading, token: Token, keys: Names, help: str | None = None) -> Word:
    """Return a token as the name of a key; report it where the plate has no such key.

    `help` is the cure where no key has a similar name.
    """
    word = reading.word(token)
    if word.text not in keys and not (keys.are_all_lost or reading.was_dropped(word.text)):
        message = f"the plate has no key `{word.text}`"
        help = near_help(word.text, keys.all()) or help
        reading.report("unknown-key", word.span, message, help=help)
    return word


def _axis(token: Token) -> Axis:
    return "row" if token == "rows" else "column"


def _drive(
    reading: Reading, statement: Node | None, diodes: DiodeRule | None, span: Span
) -> tuple[Axis, Span]:
    """Return which lines are pulled low; if the file does not say, those the bands point to."""
    if statement is None:
        return (diodes.band_toward, diodes.span) if diodes else ("column", span)
    drive, sense = tokens(statement)
    if drive == sense:
        other = "columns" if sense == "rows" else "rows"
        message = f"the {sense} cannot be driven and sensed at the same time"
        help = f"write `drive {drive}, sense {other}`"
        reading.report("drive-and-sense-alike", reading.span(sense), message, help=help)
    return _axis(drive), reading.whole(statement)


def _diodes(reading: Reading, statement: Node | None) -> DiodeRule | None:
    if statement is None:
        return None
    part, toward = tokens(statement)
    return DiodeRule(reading.text(part), _axis(toward), reading.whole(statement))


def _exceptions(reading: Reading, parts: list[Node], kind: str, keys: Names) -> tuple[Word, ...]:
    words = [word for part in parts if part.data == kind for word in tokens(part)]
    return tuple(known_key(reading, word, keys) for word in words)


def _settle(reading: Reading, statement: Node | None) -> Number | None:
    if statement is None:
        return None
    number = reading.number(tokens(statement)[0])
    in_range(reading, number.value, *SETTLE_US, number.span, "the time in µs")
    return number


def _lines(
    reading: Reading, parts: list[Node], keys: Names, controllers: tuple[Word, ...]
) -> tuple[Line, ...]:
    names = Names(reading, "line", "give each row and column wire a name of its own")
    lines: list[Line] = []
    numbers = {"row": 0, "column": 0}
    for part in parts:
        if _has_on_astray(reading, part, keys):
            continue
        line = _line(reading, part, keys)
        names.define(line.name)
        check_pins(reading, line, controllers)
        lines.append(line)
        numbers[line.axis] += 1
        most = reading.limits.lines_per_axis
        if numbers[line.axis] == most + 1:
            message = f"this is {line.axis} number {most + 1}; the firmware has at most {most}"
            reading.report("over-the-limit", line.name.span, message)
    return tuple(lines)


def _has_on_astray(reading: Reading, part: Node, keys: Names) -> bool:
    """Report an `on PIN` that does not stand right after the wire's name."""
    name, *visits = tokens(part)
    has_pin = any(end.data == "pin" for end in trees(part))
    if name == "on" and not has_pin:
        astray, message = name, "`on` stands where the wire's name should be"
    elif "on" in map(str, visits) and "on" not in keys:
        astray = next(word for word in visits if word == "on")
        message = "`on` and the pin do not stand right after the wire's name"
    else:
        return False
    help = "write its name, its pin, its colour and its keys: " + _WIRE_FORM
    reading.report("syntax", reading.span(astray), message, help=help)
    return True


def _line(reading: Reading, part: Node, keys: Names) -> Line:
    name, *visits = tokens(part)
    ends = {str(end.data): tokens(end) for end in trees(part)}
    pins = tuple(map(reading.word, ends.get("pin", ())))
    colour = ends.get("colour")
    return Line(
        "row" if part.data == "row" else "column",
        reading.word(name),
        pins[0] if pins else None,
        _colour(reading, colour[0]) if colour else None,
        tuple(
            known_key(reading, visit, keys, None if number or pins else _pin_help(visit))
            for number, visit in enumerate(visits)
        ),
        reading.whole(part),
        pins,
    )


def _pin_help(first: str) -> str | None:
    """Return the cure for a wire without a pin, whose first word looks like one."""
    return f"write `on {first}` if it is a pin" if _LIKE_A_PIN.fullmatch(first) else None


def _colour(reading: Reading, token: Token) -> Word:
    word = reading.word(token)
    if word.text not in COLOURS:
        message = f"`{word.text}` is none of the standard's colours of wire"
        help = near_help(word.text, COLOURS) or f"they are {', '.join(COLOURS)}"
        reading.report("unknown-colour", word.span, message, help=help)
    return word
