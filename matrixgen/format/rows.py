"""Statements whose first words stand in columns: settings, wires, actions, a list's cells.

Columns of wires and actions stand at fixed steps, so that another name, pin or colour in one of
them seldom moves the others: what `git diff` shows of a renamed wire is that wire.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterator, Sequence
from itertools import chain, repeat, zip_longest

from matrixgen.format.wrap import LONGEST, without_splitting_runs, wrapped
from matrixgen.record import Record


class Column(Record):
    """How wide a field is, the blank behind it included: a multiple of a step, in letters.

    It is as wide as the widest field of its group, or, if `alone`, as it takes by itself.
    """

    step: int = 1
    alone: bool = False

    def width(self, text: str, widest: int) -> int:
        """Return how wide a text is to be, without the blank behind it."""
        letters = (len(text) if self.alone else widest) + 1
        return letters + -letters % self.step - 1


WORD = Column()
NAME = Column(12, alone=True)
PART = Column(4)


class Row(Record, kw_only=True):
    """The first stretch of a statement: fields that are aligned with its group's, and what follows.

    `keys` go on in the next line where they are too many, unless the statement has breaks of its
    own. Two rows of the same `group` are aligned; a row without a group is not. A field for which
    no column is given is a word.
    """

    group: Hashable
    fields: tuple[str, ...]
    columns: tuple[Column, ...] = ()
    keys: tuple[str, ...] = ()
    gap: str = " "
    may_wrap: bool = True


def aligned(rows: Sequence[Row], indent: int) -> list[list[str]]:
    """Return the lines of each row, without indentation."""
    groups: dict[Hashable, list[Row]] = defaultdict(list)
    for row in rows:
        groups[row.group].append(row)
    widest = {group: _widest(members) for group, members in groups.items()}
    return [_lines(row, widest[row.group] if row.group else (), indent) for row in rows]


def _widest(rows: Sequence[Row]) -> tuple[int, ...]:
    """Return the letters of the longest text in each field; 0 where no row has one."""
    fields = zip_longest(*(row.fields for row in rows), fillvalue="")
    return tuple(max(map(len, texts)) for texts in fields)


def _lines(row: Row, widest: Sequence[int], indent: int) -> list[str]:
    head = " ".join(_padded(row, widest))
    if not head or len(head) + indent > LONGEST:
        head = " ".join(text for text in row.fields if text)
    if not row.keys:
        return [head.rstrip()]
    keys = without_splitting_runs(row.keys)
    if row.may_wrap:
        return wrapped(head + row.gap[1:], keys, indent)
    return [f"{head}{row.gap}{' '.join(keys)}"]


def _padded(row: Row, widest: Sequence[int]) -> Iterator[str]:
    """Yield the fields of which the group has any, each as wide as its column."""
    columns = chain(row.columns, repeat(WORD))
    for text, column, most in zip(row.fields, columns, widest, strict=False):
        if most:
            yield text.ljust(column.width(text, most))
