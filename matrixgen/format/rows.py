"""Statements whose first words stand in columns: settings, wires, actions, a list's cells."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Sequence

from matrixgen.format.wrap import LONGEST, without_splitting_runs, wrapped
from matrixgen.record import Record


class Row(Record, kw_only=True):
    """The first stretch of a statement: fields that are aligned with its group's, and what follows.

    `keys` go on in the next line where they are too many, unless the statement has breaks of its
    own. Two rows of the same `group` are aligned; a row without a group is not.
    """

    group: Hashable
    fields: tuple[str, ...]
    keys: tuple[str, ...] = ()
    gap: str = " "
    may_wrap: bool = True


def aligned(rows: Sequence[Row], indent: int) -> list[list[str]]:
    """Return the lines of each row, without indentation."""
    groups: dict[Hashable, list[Row]] = defaultdict(list)
    for row in rows:
        groups[row.group].append(row)
    widths = {group: _widths(members, indent) for group, members in groups.items()}
    return [_lines(row, widths[row.group] if row.group else (), indent) for row in rows]


def _widths(rows: Sequence[Row], indent: int) -> tuple[int, ...]:
    """Return the width of each field; none where the aligned fields alone are too long."""
    most = max(len(row.fields) for row in rows)
    widths = tuple(
        max((len(row.fields[n]) for row in rows if n < len(row.fields)), default=0)
        for n in range(most)
    )
    return () if sum(widths) + most - 1 + indent > LONGEST else widths


def _lines(row: Row, widths: Sequence[int], indent: int) -> list[str]:
    padded = row.fields
    if widths:
        padded = tuple(
            text.ljust(width) for text, width in zip(row.fields, widths, strict=False) if width
        )
    head = " ".join(text for text in padded if text)
    if not row.keys:
        return [head.rstrip()]
    keys = without_splitting_runs(row.keys)
    if row.may_wrap:
        return wrapped(head + row.gap[1:], keys, indent)
    return [f"{head}{row.gap}{' '.join(keys)}"]
