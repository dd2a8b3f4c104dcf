"""What is known of each kind of block and statement: how often it may be there, its form."""

from __future__ import annotations

from typing import Literal

from matrixgen.record import Record


class StatementKind(Record):
    """One kind of statement, by the grammar's rule for it; `source/tree.py` has the statements.

    `keyword` is its first word, if it has one, and `block` that of the block that it may be in.
    `form` is a line of that kind, to be shown where no lesson fits. `called` is what messages call
    it where its first word alone would not tell it from another.
    """

    rule: str
    keyword: str | None
    block: str
    often: Literal["once", "any"]
    form: str
    called: str = ""


class BlockKind(Record):
    """One kind of block: its first word, and the statements that may be in it."""

    keyword: str
    often: Literal["once", "any"]
    form: str
    statements: tuple[StatementKind, ...]
