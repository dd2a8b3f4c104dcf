"""The wires of a layout as a file has them, and where they go in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from matrixgen.fit.new_wiring import NewLine
from matrixgen.format.rows import aligned
from matrixgen.format.statements import wire_row
from matrixgen.format.wrap import INDENT
from matrixgen.model import Axis
from matrixgen.model.runs import in_runs
from matrixgen.model.text import SourceText
from matrixgen.record import changed
from matrixgen.source.edits import usual_line_end
from matrixgen.source.tree import BlockTree, FileTree, Piece, Statement, written
from matrixgen.source.tree_reader import tree_of

DRIVE = "drive columns, sense rows"
"""What is written where a file does not say."""


def _pins(line: NewLine) -> str:
    return f"on {', '.join(line.pins)}" if line.pins else ""


def _colour(line: NewLine) -> str:
    return f"wire {line.colour}" if line.colour else ""


def block_text(lines: Sequence[NewLine], diode: str, order: Mapping[str, int]) -> str:
    """Return a whole block `wiring`, its last line end included."""
    statements = [DRIVE, diodes_text(diode, "column"), *lines_text(lines, order)]
    return wiring_block(statements)


def wiring_block(statements: Iterable[str]) -> str:
    """Return a block `wiring` of some statements."""
    return "wiring\n" + "".join(f"{INDENT}{one}\n" for one in statements)


def diodes_text(diode: str, drive: Axis) -> str:
    """Return the statement of the diodes: current flows into the driven wires."""
    return f"diodes {diode}, band toward {drive}s"


def lines_text(lines: Sequence[NewLine], order: Mapping[str, int]) -> list[str]:
    """Return the statements of all wires without indentation, in columns as `fmt` has them.

    `order` has the place of each key on the plate.
    """
    rows = [
        wire_row(line.axis, line.name, _pins(line), _colour(line), in_runs(line.keys, order))
        for line in lines
    ]
    return [f"\n{INDENT * 2}".join(texts) for texts in aligned(rows, len(INDENT))]


def with_block(source: SourceText, block: str) -> str:
    """Return a file's text with a block after its plate; every other byte is as it was."""
    tree = tree_of(source)
    ends = usual_line_end(source.original)
    place = [one.header.rule for one in tree.blocks].index("plate") + 1
    blocks = list(tree.blocks)
    blocks[place - 1] = ended(blocks[place - 1], ends)
    added = raw(f"\n{block}", ends)
    notes, tree = _without_notes(changed(tree, blocks=tuple(blocks)), place)
    new = BlockTree(changed(added, above=_ended_notes(notes, ends)), ())
    return written(changed(tree, blocks=(*tree.blocks[:place], new, *tree.blocks[place:])))


def filled_block(source: SourceText, statements: Sequence[str]) -> str:
    """Return a file's text with more statements at the end of its block `wiring`.

    They follow the comments that are its own, and are set in as far as those that it has.
    """
    tree = tree_of(source)
    ends = usual_line_end(source.original)
    place = [one.header.rule for one in tree.blocks].index("wiring")
    block = ended(tree.blocks[place], ends)
    gap = block.statements[-1].pieces[0].text if block.statements else INDENT
    added = [raw("".join(f"{gap}{one}\n" for one in statements), ends)]
    notes, tree = _without_notes(tree, place + 1)
    added[0] = changed(added[0], above=_ended_notes(notes, ends))
    block = changed(block, statements=(*block.statements, *added))
    return written(changed(tree, blocks=(*tree.blocks[:place], block, *tree.blocks[place + 1 :])))


def _without_notes(tree: FileTree, place: int) -> tuple[tuple[Piece, ...], FileTree]:
    """Return the indented comments right above a block, or at the file's end, and a tree without.

    They belong to the block before.
    """
    if place == len(tree.blocks):
        notes, below = _notes(tree.below)
        return notes, changed(tree, below=below)
    header = tree.blocks[place].header
    notes, above = _notes(header.above)
    block = changed(tree.blocks[place], header=changed(header, above=above))
    return notes, changed(tree, blocks=(*tree.blocks[:place], block, *tree.blocks[place + 1 :]))


def _notes(pieces: tuple[Piece, ...]) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Return the indented comments right below a block, which are its own, and what follows."""
    end = here = 0
    while here + 1 < len(pieces) and [p.kind for p in pieces[here : here + 2]] == [
        "gap",
        "comment",
    ]:
        has_end = pieces[here + 2 : here + 3] and pieces[here + 2].kind == "line end"
        end = here = here + (3 if has_end else 2)
    return pieces[:end], pieces[end:]


def _ended_notes(notes: tuple[Piece, ...], ends: str) -> tuple[Piece, ...]:
    if notes and notes[-1].kind != "line end":
        return (*notes, Piece("line end", ends))
    return notes


def raw(text: str, ends: str) -> Statement:
    """Return text as if it were a statement: it is only written."""
    piece = Piece("word", text.replace("\n", ends))
    return Statement(rule=None, line=0, above=(), pieces=(piece,))


def ended(block: BlockTree, ends: str) -> BlockTree:
    """Return a block whose last line has a line end."""
    last = block.statements[-1] if block.statements else block.header
    if last.pieces[-1].kind == "line end":
        return block
    done = changed(last, pieces=(*last.pieces, Piece("line end", ends)))
    if not block.statements:
        return changed(block, header=done)
    return changed(block, statements=(*block.statements[:-1], done))
