"""The row and column wires: name, pins, colour, and the keys that each visits."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from matrixgen.model.text import Word
from matrixgen.model.wiring import AXES, Line
from matrixgen.similar import similar_name
from matrixgen.source.blocks.keys import Keys
from matrixgen.source.names import LINE, Names
from matrixgen.source.patterns import pattern
from matrixgen.source.reporter import Reporter, tokens, trees

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node, Token

_LIKE_A_PIN = r"[A-Za-z]{0,4}\d{1,2}"

# IEC 60757 in full words, as they are printed on reels of wire.
COLOURS = (
    *("black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white"),
    *("pink", "gold", "turquoise", "silver"),
)


def wires_of(
    reporter: Reporter, parts: list[Node], keys: Keys
) -> tuple[tuple[Line, ...], dict[str, tuple[Word, ...]]]:
    """Return the lines of the block `wiring`, and the pins of each by the line's name."""
    wires = [part for part in parts if part.data in ("row", "column")]
    wires = [wire for wire in wires if not _has_on_out_of_place(reporter, wire, keys)]
    names = Names(reporter, LINE)
    reader = _WireReader(reporter, keys, wires)
    lines = tuple(map(reader.line, wires))
    for line in lines:
        names.define(line.name)
    _check_numbers(reporter, lines)
    pins = {line.name.text: reader.pins(wire) for line, wire in zip(lines, wires, strict=True)}
    return lines, {name: ends for name, ends in pins.items() if ends}


class _WireReader:
    """Reads one wire after the other, and knows which keys all of them visit."""

    def __init__(self, reporter: Reporter, keys: Keys, wires: list[Node]) -> None:
        self._reporter = reporter
        self._keys = keys
        self._wires = wires

    def line(self, wire: Node) -> Line:
        """Return a wire as a line of the model."""
        colour = tokens(wire, "COLOUR")
        return Line(
            axis="row" if wire.data == "row" else "column",
            name=self._reporter.word(tokens(wire)[0]),
            colour=_colour(self._reporter, colour[0]) if colour else None,
            visits=self._keys.listed(wire, lambda word: self._help(wire, word)),
            span=self._reporter.whole(wire),
        )

    def pins(self, wire: Node) -> tuple[Word, ...]:
        """Return the pins that a wire is on, in the order of the file's controllers."""
        return tuple(map(self._reporter.word, tokens(wire, "PIN")))

    def _help(self, wire: Node, word: str) -> str | None:
        """Return the cure for a word that is no key: a pin, or a key that no such wire has yet."""
        first = next((one for one in wire.children if getattr(one, "type", "") == "KEY"), None)
        if first == word and not tokens(wire, "PIN") and pattern(_LIKE_A_PIN).fullmatch(word):
            return f"write `on {word}` if it is a pin"
        if not self._reporter.may_search():
            return None
        unwired = similar_name(word, self._unwired(str(wire.data)))
        return f"`{unwired}` has a similar name and is on no {wire.data}" if unwired else None

    def _unwired(self, axis: str) -> list[str]:
        wires = (wire for wire in self._wires if wire.data == axis)
        return self._keys.others({name for wire in wires for name in self._visited(wire)})

    def _visited(self, wire: Node) -> Iterator[str]:
        yield from map(str, tokens(wire, "KEY"))
        for run in trees(wire):
            yield from self._keys.between(*map(str, tokens(run)))


def _check_numbers(reporter: Reporter, lines: tuple[Line, ...]) -> None:
    for axis in AXES:
        spans = [line.name.span for line in lines if line.axis == axis]
        reporter.at_most(reporter.limits.lines_per_axis, spans, axis, "the firmware")


def _has_on_out_of_place(reporter: Reporter, wire: Node, keys: Keys) -> bool:
    """Report an `on PIN` that does not stand right after the wire's name."""
    name, visits = tokens(wire)[0], tokens(wire, "KEY")
    if name == "on" and not tokens(wire, "PIN"):
        misplaced, message = name, "expected the wire's name, found `on`"
    elif "on" in map(str, visits) and "on" not in keys:
        misplaced = next(word for word in visits if word == "on")
        message = "`on` and the pin are not right after the wire's name"
    else:
        return False
    help = "write its name, its pin, its colour and its keys: `row r0 on PD0 wire yellow Q W E`"
    reporter.report("syntax", reporter.span(misplaced), message, help=help)
    return True


def _colour(reporter: Reporter, token: Token) -> Word:
    word = reporter.word(token)
    if word.text not in COLOURS:
        message = f"`{word.text}` is not one of the standard's wire colours"
        near = similar_name(word.text, COLOURS)
        help = f"`{near}` is one" if near else f"they are {', '.join(COLOURS)}"
        reporter.report("unknown-colour", word.span, message, help=help)
    return word
