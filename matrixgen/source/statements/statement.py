"""What is known of each kind of line: where it stands, how often, its form."""

from __future__ import annotations

from typing import Literal

from matrixgen.record import Record


class Statement(Record):
    """A line of a block, by the grammar's rule for it. `keyword` is its first word, if it has one.

    `form` is a line of that kind, to be shown where no lesson fits. `called` is what messages call
    it where its first word alone would not tell it from another.
    """

    rule: str
    keyword: str | None
    block: str
    often: Literal["once", "any"]
    form: str
    called: str = ""


class Block(Record):
    """A block by its first word, and the lines that may stand in it."""

    keyword: str
    often: Literal["once", "any"]
    form: str
    statements: tuple[Statement, ...]
