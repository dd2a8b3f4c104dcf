"""The words of a file by their kinds, to be coloured; and what may be shown beside them."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.editor.file_words import PLATE_LINE
from matrixgen.editor.kinds import kind_of
from matrixgen.editor.names import Thing, definition
from matrixgen.editor.open_file import OpenText
from matrixgen.model import Span
from matrixgen.source.letters import name_of_key
from matrixgen.source.tree import every_piece, placed


def coloured(text: OpenText) -> Iterator[tuple[Span, str]]:
    """Yield each word and comment with its kind, in file order."""
    words, actions = text.words.all, text.words.names("ACTION_NAME")
    found = [(one.span, _kind(one.terminal, one.text in actions)) for one in words]
    pieces = placed(every_piece(text.tree))
    found += [
        (Span.in_line(text.source.path, line, column, len(piece.text)), "comment")
        for piece, line, column in pieces
        if piece.kind == "comment"
    ]
    yield from sorted(found, key=lambda one: one[0])


def _kind(terminal: str, is_action: bool) -> str:
    return "key" if terminal == "CELL" and not is_action else kind_of(terminal)


def hints(text: OpenText, lines: range) -> Iterator[tuple[tuple[int, int], str]]:
    """Yield what may be shown behind words: the wires of a key, how many pins are spare."""
    design = text.read.design
    if design is None:
        return
    wires: dict[str, list[str]] = {}
    for line in design.keyboard.wiring.lines:
        for key in dict.fromkeys(word.text for word in line.visits):
            wires.setdefault(key, []).append(line.name.text)
    for one in text.words.of("KEY"):
        if one.rule == PLATE_LINE and one.span.line in lines:
            on = wires.get(name_of_key(one.text))
            if on and definition(text.words, Thing("key", name_of_key(one.text))):
                yield one.span.end, " ".join(on)
    for mounted in text.read.mounted:
        at = mounted.controller.span
        if at.line in lines:
            yield at.end, f"{len(mounted.spare_pins)} pins spare"
