"""The words of a file by their kinds, to be coloured; and what may be shown beside them."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.editor.file_words import PLATE_LINE, FileWords
from matrixgen.editor.kinds import kind_of
from matrixgen.editor.names import Thing, definition
from matrixgen.editor.open_file import OpenText
from matrixgen.model import Span
from matrixgen.source.letters import name_of_key


def coloured(text: OpenText) -> Iterator[tuple[Span, str]]:
    """Yield each word and comment with its kind, in file order."""
    words = FileWords(text.source.path, text.tree)
    actions = {one.text for one in words.defined.get("ACTION_NAME", ())}
    found = [(one.span, _kind(one.terminal, one.text in actions)) for one in words.all] + [
        *_comments(text)
    ]
    yield from sorted(found, key=lambda one: one[0])


def _kind(terminal: str, is_action: bool) -> str:
    return "key" if terminal == "CELL" and not is_action else kind_of(terminal)


def _comments(text: OpenText) -> Iterator[tuple[Span, str]]:
    line, column = 1, 1
    for block in text.tree.blocks:
        for statement in (block.header, *block.statements):
            for piece in (*statement.above, *statement.pieces):
                if piece.kind == "comment":
                    span = Span.in_line(text.source.path, line, column, len(piece.text))
                    yield span, "comment"
                is_end = piece.kind == "line end"
                line, column = (line + 1, 1) if is_end else (line, column + len(piece.text))


def hints(text: OpenText, lines: range) -> Iterator[tuple[tuple[int, int], str]]:
    """Yield what may be shown behind words: the wires of a key, how many pins are spare."""
    design = text.read.design
    if design is None:
        return
    words = FileWords(text.source.path, text.tree)
    wires: dict[str, list[str]] = {}
    for line in design.keyboard.wiring.lines:
        for key in dict.fromkeys(word.text for word in line.visits):
            wires.setdefault(key, []).append(line.name.text)
    for one in words.of("KEY"):
        if one.rule == PLATE_LINE and one.span.line in lines:
            on = wires.get(name_of_key(one.text))
            if on and definition(words, Thing("key", name_of_key(one.text))):
                yield one.span.end, " ".join(on)
    for mounted in text.read.mounted:
        at = mounted.controller.span
        if at.line in lines:
            yield at.end, f"{len(mounted.spare_pins)} pins spare"
