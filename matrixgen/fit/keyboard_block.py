"""A controller written into a file: into its block `keyboard`, or with a new one."""

from __future__ import annotations

from matrixgen.fit.block import ended, raw
from matrixgen.format.wrap import INDENT
from matrixgen.model.text import SourceText
from matrixgen.record import changed
from matrixgen.source.edits import usual_line_end
from matrixgen.source.tree import BlockTree, FileTree, Piece, written
from matrixgen.source.tree_reader import tree_of


def controller_text(controller: str) -> str:
    """Return the statement that names a controller, as the file has to name it."""
    return f"{INDENT}controller {controller}\n"


def block_of(name: str, controller: str) -> str:
    """Return a block `keyboard` with a name and a controller."""
    quoted = name.replace("\\", "\\\\").replace('"', '\\"')
    return f'keyboard "{quoted}"\n{controller_text(controller)}'


def with_controller(source: SourceText, controller: str, name: str) -> str:
    """Return a file's text with a controller; every other byte is as it was.

    A file without a block `keyboard` gets one of that name. It goes above the first block, below
    what the file says before its first empty line.
    """
    tree = tree_of(source)
    ends = usual_line_end(source.original)
    place = next((n for n, one in enumerate(tree.blocks) if one.header.rule == "keyboard"), None)
    if place is None:
        return written(_with_block(tree, block_of(name, controller), ends))
    block = ended(tree.blocks[place], ends)
    added = raw(controller_text(controller), ends)
    block = changed(block, statements=(added, *block.statements))
    return written(changed(tree, blocks=(*tree.blocks[:place], block, *tree.blocks[place + 1 :])))


def _with_block(tree: FileTree, text: str, ends: str) -> FileTree:
    first = tree.blocks[0]
    above, own = _parted(first.header.above)
    new = changed(raw(f"{text}\n", ends), above=above)
    first = changed(first, header=changed(first.header, above=own))
    return changed(tree, blocks=(BlockTree(new, ()), first, *tree.blocks[1:]))


def _parted(above: tuple[Piece, ...]) -> tuple[tuple[Piece, ...], tuple[Piece, ...]]:
    """Return what stands above a block up to its last empty line, and the rest."""
    end = begin = 0
    for place, piece in enumerate(above):
        if piece.kind == "line end":
            if all(one.kind == "gap" for one in above[begin:place]):
                end = place + 1
            begin = place + 1
    return above[:end], above[end:]
