"""A text parsed block by block, so that a block that was parsed before need not be parsed again.

Revisions of a file, and the sides of a merge, share most of their blocks. No word or line end of a
block looks beyond the next line in the first column: what it is, its own text says. A text with a
mistake in it is left to whoever recovers from mistakes.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import pairwise

from matrixgen.source.automaton import Automaton, Unexpected, first_in, last_in
from matrixgen.source.lexer import Lexer, keys_lexer
from matrixgen.source.patterns import BLOCK_START, pattern
from matrixgen.source.syntax import Node

MOST_KEPT = 256
"""Blocks that are kept: of a file that is read again and again, those of its last few versions."""

BlockText = tuple[str, int, bool]
"""A block's text from the line feed before it, the number of lines above, and whether it keeps all
words."""


class Blocks:
    """The blocks of a language that were parsed last."""

    def __init__(self, lexer: Lexer) -> None:
        self._lexer = lexer
        self._known: dict[BlockText, Node] = {}

    def tree(self, text: str, *, keeps_all: bool) -> Node | None:
        """Return the tree of a text that begins with a line feed, or None where it has a mistake.

        Places in the text, and columns of line ends, are counted from the one before their block.
        """
        try:
            parts = [self._parsed((*piece, keeps_all)) for piece in _pieces(text)]
        except Unexpected:
            return None
        blocks = [child for part in parts for child in part.children]
        return Node(parts[0].data, blocks, first_in(parts), last_in(parts))

    def _parsed(self, piece: BlockText) -> Node:
        known = self._known.get(piece)
        if known is None:
            text, line, keeps_all = piece
            reader = Automaton(text, self._lexer, keeps_all=keeps_all)
            reader.line = line
            known = reader.resume()
            if len(self._known) >= MOST_KEPT:
                del self._known[next(iter(self._known))]
            self._known[piece] = known
        return known


def _pieces(text: str) -> Iterator[tuple[str, int]]:
    """Yield what stands before the first block, and each block, with the number of lines above."""
    starts = [0, *(found.start() for found in pattern(BLOCK_START).finditer(text))]
    line = 0
    for start, end in pairwise([*starts, len(text)]):
        yield text[start:end], line
        line += text.count("\n", start, end)


def keys_blocks() -> Blocks:
    """Return the blocks of the language; the same ones each time."""
    return _blocks_of(keys_lexer())


_blocks_of = cache(Blocks)
