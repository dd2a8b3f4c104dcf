"""Pictures: layers in the plate's shape, one cell for each key."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Note
from matrixgen.model.plate import PlateLine
from matrixgen.model.prose import counted
from matrixgen.source.phrases import phrase_length
from matrixgen.source.reporter import Reporter, tokens
from matrixgen.source.vocabulary import Vocabulary

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node, Token

SEE_THROUGH = "~"


def is_picture_for(
    reporter: Reporter, lines: list[Node], plate: tuple[PlateLine, ...], vocabulary: Vocabulary
) -> bool:
    """Whether a picture has one cell for each key of each line; report where it has not.

    Where a line of the file could not be read, the shapes cannot be compared, and nothing is said.
    """
    if _has_phrases(reporter, lines, vocabulary):
        return False
    widths = [len(line.children) for line in lines]
    if widths == [len(line.keys) for line in plate]:
        return True
    if not (plate and reporter.is_whole):
        return False
    if len(lines) != len(plate):
        _report_height(reporter, lines, plate)
        return False
    for number, (line, plate_line) in enumerate(zip(lines, plate, strict=True), 1):
        if len(line.children) != len(plate_line.keys):
            _report_line(reporter, line, plate_line, number)
    return False


def _has_phrases(reporter: Reporter, lines: list[Node], vocabulary: Vocabulary) -> bool:
    """Report each phrase of several words, which a picture has no room for."""
    found = False
    for line in lines:
        for phrase in _phrases(tokens(line), vocabulary):
            found = True
            said = " ".join(phrase)
            reporter.report(
                "phrase-in-picture",
                reporter.span(phrase[0]).to(reporter.span(phrase[-1])),
                f"`{said}` is a phrase, and a cell of a picture is one word",
                help=(
                    f"give it a name in the block `actions`, as in `more = {said}`",
                    f"or make the layer a list, as in `KEY = {said}`",
                ),
            )
    return found


def _phrases(cells: list[Token], vocabulary: Vocabulary) -> Iterator[list[Token]]:
    for place, cell in enumerate(cells):
        if vocabulary.begins_phrase(cell):
            yield cells[place : place + phrase_length(cells[place:])]


def _report_height(reporter: Reporter, lines: list[Node], plate: tuple[PlateLine, ...]) -> None:
    """Report a missing or a spare line, where a reader would put or remove it: at the end."""
    want, have = len(plate), len(lines)
    missing = [Note(f"line {have + 1} of the plate", plate[have].span)] if have < want else []
    reporter.report(
        "picture-shape",
        reporter.whole(lines[min(want, have - 1)]),
        f"the picture has {counted(have, 'line')}, the plate has {want}",
        help="a picture has one line for each `line` of the plate",
        notes=missing,
    )


def _report_line(reporter: Reporter, line: Node, plate_line: PlateLine, number: int) -> None:
    """Report a line with too few or too many cells, under its last one or the ones too many."""
    cells, want = tokens(line), len(plate_line.keys)
    last = reporter.span(cells[-1])
    reporter.report(
        "picture-shape",
        reporter.span(cells[want]).to(last) if len(cells) > want else last,
        f"line {number} of the picture has {counted(len(cells), 'cell')} "
        f"for {counted(want, 'key')}",
        help="write `~` for a key that keeps the action of the layer below",
        notes=[Note(f"line {number} of the plate", plate_line.span)],
    )
