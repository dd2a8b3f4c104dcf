"""A whole file in the canonical form: its blocks, comments put back, one empty line between."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.format.blocks import header, laid_out
from matrixgen.format.laid import Laid
from matrixgen.format.notes import CommentLine, notes_of, parted, without_first_gap
from matrixgen.format.pictures import rows_of_plate
from matrixgen.format.wrap import INDENT, LONGEST
from matrixgen.record import Record
from matrixgen.source.tree import BlockTree, FileTree

BEFORE_COMMENT = 2
"""Blanks before a comment at the end of the longest line that has one, or more."""

COMMENT_STEP = 8
"""Several comments stand in a column that is a multiple of this: a longer line may leave them."""


class TextLine(Record):
    """A line of the new text and the comment at its end; a comment's own line has it as text."""

    text: str
    comment: str


def text_of(tree: FileTree) -> str:
    """Return a tree in the canonical form, with line feeds and without a byte order mark."""
    plate = next((rows_of_plate(one) for one in tree.blocks if one.header.rule == "plate"), ())
    between = [notes_of(one.header.above) for one in tree.blocks] + [notes_of(tree.below)]
    parted_notes = [parted(notes) for notes in between]
    parted_notes[0] = [], without_first_gap(between[0])  # no block is above it
    texts = []
    for number, block in enumerate(tree.blocks):
        notes, tail = parted_notes[number][1], parted_notes[number + 1][0]
        made = [header(block.header), *laid_out(block, plate)]
        body = _with_comments(list(_body(block, made, tail)))
        texts.append("".join(f"{line}\n" for line in [*(note.text for note in notes), *body]))
    last = parted_notes[-1][1]
    texts.append("".join(f"{note.text}\n" for note in last).rstrip("\n") + "\n" * bool(last))
    return "\n".join(text for text in texts if text)


def _body(
    block: BlockTree, made: Sequence[Laid], tail: Sequence[CommentLine]
) -> Iterator[TextLine]:
    """Yield a block's lines from its first one to the comments that are still its own."""
    yield from _statement(made[0])
    for number, (statement, one) in enumerate(zip(block.statements, made[1:], strict=True)):
        notes = notes_of(statement.above)
        yield from _notes(notes if number else without_first_gap(notes), one.indent)
        yield from _statement(one)
    has_statements = len(made) > 1
    indent = made[-1].indent if has_statements else len(INDENT)
    yield from _notes(tail if has_statements else without_first_gap(tail), indent)


def _notes(notes: Sequence[CommentLine], indent: int) -> Iterator[TextLine]:
    for note in notes:
        yield TextLine(" " * indent + note.text if note.text else "", "")


def _statement(made: Laid) -> Iterator[TextLine]:
    """Yield a statement's lines; the comment of a stretch that became several is at its end."""
    last = len(made.lines) - 1
    is_one = len(made.stretches) == 1
    for number, text in enumerate(made.lines):
        indent = " " * (made.indent + (len(INDENT) if number else 0))
        stretch = made.stretches[0 if is_one else number]
        for comment in stretch.above if not is_one else ():
            yield TextLine(indent + comment, "")
        yield TextLine(indent + text, "" if is_one and number < last else stretch.comment)


def _with_comments(lines: Sequence[TextLine]) -> list[str]:
    """Return lines with their comments under each other, but those behind very long ones."""
    widths = [len(line.text) for line in lines if line.comment]
    least = max((width for width in widths if width <= LONGEST), default=0) + BEFORE_COMMENT
    column = least + -least % COMMENT_STEP if len(widths) > 1 else least
    return [_with_comment(line, column) if line.comment else line.text for line in lines]


def _with_comment(line: TextLine, column: int) -> str:
    return (line.text + " " * BEFORE_COMMENT).ljust(column) + line.comment
