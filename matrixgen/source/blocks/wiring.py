"""The block `wiring`: the wires, the keys they visit, the diodes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from matrixgen.model.text import Number, Span, Word
from matrixgen.model.wiring import Axis, DiodeRule, Wiring
from matrixgen.source.blocks.components import WiredComponents, components_of
from matrixgen.source.blocks.given_once import once_each
from matrixgen.source.blocks.keys import Keys
from matrixgen.source.blocks.wires import wires_of
from matrixgen.source.reporter import Reporter, every_token, tokens, trees

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node, Token

SETTLE_US = (0, 1000)

Pins = dict[str, tuple[Word, ...]]


def wiring_of(
    reporter: Reporter, block: Node, keys: Keys, layers: Sequence[str]
) -> tuple[Wiring, Pins, WiredComponents]:
    """Return the block `wiring`, the pins of its lines by their names, and its lights and knobs."""
    parts = trees(block)
    once = once_each(reporter, parts)
    keyword = reporter.keyword(block, len("wiring"))
    diodes = _diodes(reporter, once.get("diodes"))
    drive, drive_span = _drive(reporter, once.get("drive"), diodes, keyword)
    lines, pins = wires_of(reporter, parts, keys)
    components = components_of(reporter, parts, layers)
    wiring = Wiring(
        drive=drive,
        drive_span=drive_span,
        diodes=diodes,
        without_diode=_exceptions(parts, "without", keys),
        without_spans=tuple(reporter.whole(part) for part in parts if part.data == "without"),
        reversed=_exceptions(parts, "reversed", keys),
        settle_us=_settle(reporter, once.get("settle")),
        lines=lines,
        keyword=keyword,
        span=reporter.whole(block),
        lights=components.lights,
        knobs=components.knobs,
    )
    return wiring, pins, components


def no_wiring(head: Span) -> Wiring:
    """Return the wiring of a file without the block; `head` stands for its place."""
    return Wiring(drive="column", drive_span=head, keyword=head, span=head, is_given=False)


def _axis(token: Token) -> Axis:
    return "row" if token == "rows" else "column"


def _drive(
    reporter: Reporter, statement: Node | None, diodes: DiodeRule | None, keyword: Span
) -> tuple[Axis, Span]:
    """Return which lines are pulled low; if the file does not say, those the bands point to."""
    if statement is None:
        return (diodes.band_toward, diodes.span) if diodes else ("column", keyword)
    drive, sense = tokens(statement)
    if drive == sense:
        other = "columns" if sense == "rows" else "rows"
        reporter.report(
            "drive-and-sense-alike",
            reporter.span(sense),
            f"the {sense} cannot be driven and sensed at the same time",
            help=(
                f"write `drive {drive}, sense {other}` if the {drive} are driven",
                f"write `drive {other}, sense {sense}` if the {sense} are sensed",
            ),
        )
    return _axis(drive), reporter.whole(statement)


def _diodes(reporter: Reporter, statement: Node | None) -> DiodeRule | None:
    if statement is None:
        return None
    part, toward = every_token(statement)
    return DiodeRule(reporter.text(part), _axis(toward), reporter.whole(statement))


def _exceptions(parts: list[Node], rule: str, keys: Keys) -> tuple[Word, ...]:
    return tuple(word for part in parts if part.data == rule for word in keys.listed(part))


def _settle(reporter: Reporter, statement: Node | None) -> Number | None:
    if statement is None:
        return None
    return reporter.number_in(tokens(statement)[0], *SETTLE_US, "the time in µs")
