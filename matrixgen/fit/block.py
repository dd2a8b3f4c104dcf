"""The wires of a layout as a file has them, and where they go in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from matrixgen.fit.new_wiring import NewLine
from matrixgen.format.wrap import INDENT, wrapped
from matrixgen.model.runs import in_runs
from matrixgen.model.text import SourceText
from matrixgen.record import changed
from matrixgen.source.tree import BlockTree, FileTree, Piece, Statement, tree_of, written


def line_text(line: NewLine, lines: Sequence[NewLine], order: Mapping[str, int]) -> str:
    """Return the statement of a wire, without indentation, aligned with those of all wires.

    `order` has the place of each key on the plate.
    """
    names = max(len(other.name) for other in lines)
    pins = max((len(_pins(other)) for other in lines), default=0)
    colours = max((len(_colour(other)) for other in lines), default=0)
    head = f"{line.axis:<6} {line.name:<{names}}"
    head += f" {_pins(line):<{pins}}" if pins else ""
    head += f" {_colour(line):<{colours}}" if colours else ""
    return f"\n{INDENT * 2}".join(wrapped(f"{head} ", in_runs(line.keys, order), len(INDENT)))


def _pins(line: NewLine) -> str:
    return f"on {', '.join(line.pins)}" if line.pins else ""


def _colour(line: NewLine) -> str:
    return f"wire {line.colour}" if line.colour else ""


def block_text(lines: Sequence[NewLine], diode: str, order: Mapping[str, int]) -> str:
    """Return a whole block `wiring`, its last line end included."""
    statements = [
        "drive columns, sense rows",
        f"diodes {diode}, band toward columns",
        *(line_text(line, lines, order) for line in lines),
    ]
    return "wiring\n" + "".join(f"{INDENT}{one}\n" for one in statements)


def with_block(source: SourceText, block: str, controller: str | None) -> str:
    """Return a file's text with a block after its plate; every other byte is as it was.

    `controller` is put into the block `keyboard` as well, if it is given.
    """
    tree = tree_of(source)
    ends = _line_end(tree)
    blocks = [_with_controller(one, controller, ends) if controller else one for one in tree.blocks]
    place = [one.header.rule for one in blocks].index("plate") + 1
    blocks[place - 1] = _ended(blocks[place - 1], ends)
    added = _raw(f"\n{block}", ends)
    if place == len(blocks):
        notes, below = _notes(tree.below)
        return written(changed(tree, blocks=(*blocks, _under(notes, added, ends)), below=below))
    notes, above = _notes(blocks[place].header.above)
    header = changed(blocks[place].header, above=above)
    blocks[place] = changed(blocks[place], header=header)
    return written(
        changed(tree, blocks=(*blocks[:place], _under(notes, added, ends), *blocks[place:]))
    )


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


def _under(notes: tuple[Piece, ...], block: BlockTree, ends: str) -> BlockTree:
    """Return a block below some comments."""
    if notes and notes[-1].kind != "line end":
        notes = (*notes, Piece("line end", ends))
    return changed(block, header=changed(block.header, above=notes))


def _raw(text: str, ends: str) -> BlockTree:
    """Return text as if it were a block: it is only written."""
    piece = Piece("word", text.replace("\n", ends))
    return BlockTree(Statement(rule=None, line=0, above=(), pieces=(piece,)), ())


def _with_controller(block: BlockTree, controller: str, ends: str) -> BlockTree:
    if block.header.rule != "keyboard":
        return block
    block = _ended(block, ends)
    added = _raw(f"{INDENT}controller {controller}\n", ends).header
    return changed(block, statements=(added, *block.statements))


def _ended(block: BlockTree, ends: str) -> BlockTree:
    """Return a block whose last line has a line end."""
    last = block.statements[-1] if block.statements else block.header
    if last.pieces[-1].kind == "line end":
        return block
    done = changed(last, pieces=(*last.pieces, Piece("line end", ends)))
    if not block.statements:
        return changed(block, header=done)
    return changed(block, statements=(*block.statements[:-1], done))


def _line_end(tree: FileTree) -> str:
    """Return the line end of a file: that of its first line."""
    for block in tree.blocks:
        for piece in block.header.pieces:
            if piece.kind == "line end":
                return piece.text
    return "\n"
