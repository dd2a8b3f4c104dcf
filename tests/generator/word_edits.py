"""Small edits of a drawn file: single words for others that may stand there."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from matrixgen.model import SourceText
from matrixgen.record import changed
from matrixgen.source.parts import PLACES
from matrixgen.source.tree import FileTree, Piece, Statement, written
from matrixgen.source.tree_reader import tree_of
from tests.generator.words import COLOURS

Place = tuple[int, int, int]
"""The number of a block, of a statement in it (0 is its first line), and of a word in that."""

CELLS = ("F13", "Ctrl+F14", "Menu", "nothing", "VolumeUp")
TIMES = (
    *("debounce", "settle", "once_lasts", "pace", "hold_after"),
    *("together", "together_within"),
)
NAMES = ("WIRE_NAME",)
"""Words that name what they stand at, and are nowhere else."""


def statements(tree: FileTree) -> Iterator[tuple[int, int, Statement]]:
    for block, one in enumerate(tree.blocks):
        for number, statement in enumerate((one.header, *one.statements)):
            yield block, number, statement


def other_word(chance: Random, piece: Piece, rule: str) -> str | None:
    """Another word for one, or None where it cannot be changed by itself."""
    kind, text = piece.terminal, piece.text
    if kind == "CELL" and rule in ("entries", "picture_line") and len(piece.part) > 0:
        return chance.choice(CELLS)
    if kind == "COLOUR":
        return chance.choice(COLOURS)
    if kind == "PIN":
        return f"PX{chance.randrange(1000)}"
    if kind == "WIRE_NAME":
        return f"wire-{chance.randrange(10**6)}"
    if kind == "GAP":
        return chance.choice(("~0.5", "~1.125", "~2"))
    if kind == "SIZE":
        return chance.choice((":1.25", ":2.25", ":3x2"))
    if kind == "NUMBER" and rule in ("plate_line", "cluster", *PLACES):
        return f"{float(text) + chance.choice((0.25, 1, 2)):g}"
    if kind == "NUMBER" and rule in TIMES:
        return f"{float(text) + 1:g}" if float(text) < 40 else f"{float(text) - 1:g}"
    if kind == "STRING" and rule in ("keyboard", "maker"):
        return f'"Name {chance.randrange(100)}"'
    return None


def places(tree: FileTree) -> list[tuple[Place, Piece, str]]:
    """Each word of a file that may be changed, its place, and the rule of its statement."""
    return [
        ((block, number, place), piece, statement.rule or "")
        for block, number, statement in statements(tree)
        for place, piece in enumerate(statement.pieces)
        if piece.kind == "word" and other_word(Random(0), piece, statement.rule or "")
    ]


def with_words(text: str, words: dict[Place, str]) -> str:
    """The text with other words at some places."""
    tree = tree_of(SourceText("pad.keys", text))
    for (block, number, place), word in words.items():
        one = tree.blocks[block]
        whole = [one.header, *one.statements]
        pieces = list(whole[number].pieces)
        pieces[place] = changed(pieces[place], text=word)
        whole[number] = changed(whole[number], pieces=tuple(pieces))
        blocks = list(tree.blocks)
        blocks[block] = changed(one, header=whole[0], statements=tuple(whole[1:]))
        tree = changed(tree, blocks=tuple(blocks))
    return written(tree)
