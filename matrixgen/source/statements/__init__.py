"""The one table of the language's lines: blocks, their statements, and what is known of each.

`grammar/keys.lark` says how each is made up; a row here names the grammar's rule. Whoever adds a
statement adds its rule there, its row here, and its reader in `blocks`.
"""

from __future__ import annotations

from matrixgen.source.statements.keyboard import KEYBOARD
from matrixgen.source.statements.layers import ACTIONS, LAYER
from matrixgen.source.statements.plate import PLATE
from matrixgen.source.statements.statement import Block, Cure, Lesson, Statement
from matrixgen.source.statements.wiring import WIRING

BLOCKS: dict[str, Block] = {
    block.keyword: block for block in (KEYBOARD, PLATE, WIRING, ACTIONS, LAYER)
}
"""Every block by its first word."""

STATEMENTS: dict[str, Statement] = {
    statement.rule: statement for block in BLOCKS.values() for statement in block.statements
}
"""Every statement by the grammar's rule for it."""

HOME: dict[str, str] = {
    statement.keyword: statement.block for statement in STATEMENTS.values() if statement.keyword
}
"""The block that each keyword stands in."""

KEYWORDS: dict[str, tuple[str, ...]] = {
    name: tuple(dict.fromkeys(word for word, home in HOME.items() if home == name))
    for name in BLOCKS
}
"""The first words that a block's statements have."""


def form_of(first: str) -> str | None:
    """Return what a line that starts with a keyword looks like."""
    if first in BLOCKS:
        return BLOCKS[first].form
    return next((one.form for one in STATEMENTS.values() if one.keyword == first), None)


__all__ = [
    "BLOCKS",
    "HOME",
    "KEYWORDS",
    "STATEMENTS",
    "Block",
    "Cure",
    "Lesson",
    "Statement",
    "form_of",
]
