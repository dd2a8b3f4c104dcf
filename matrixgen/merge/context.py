"""What every part of one merge knows: the three versions, the merged plate, what clashes."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.merge.labels import statement_label
from matrixgen.merge.sides import Version, line_ids, order_of
from matrixgen.merge.three_way import Id, Which
from matrixgen.record import Record
from matrixgen.source.tree import Statement


class Entry(Record):
    """A statement of the merged file, and the names of its block and of itself."""

    block: Id
    id: Id
    statement: Statement


class MergeContext:
    """One merge in which a side is preferred.

    `plate` has the keys of each line of the merged plate, by the name of the line, as soon as that
    is merged. `clashes` says what both sides changed, by block and statement.
    """

    def __init__(self, base: Version | None, ours: Version, theirs: Version, prefer: Which) -> None:
        self.sides = (base, ours, theirs)
        self.prefer: Which = prefer
        self.plate: list[tuple[Id, tuple[str, ...]]] = []
        self.clashes: dict[tuple[Id, Id], list[str]] = {}
        our_ids = line_ids(base, ours, ())
        base_ids = line_ids(base, base, ()) if base else ()
        new = [
            line for id, line in zip(our_ids, ours.keys_of_lines, strict=True) if id not in base_ids
        ]
        self.line_ids = (base_ids, our_ids, line_ids(base, theirs, new))

    @property
    def order(self) -> dict[str, int]:
        """The place of each key on the merged plate."""
        return order_of([line for _, line in self.plate])

    @property
    def every_step(self) -> frozenset[str]:
        """The steps of the knobs of all versions."""
        return frozenset[str]().union(*(side.steps for side in self.sides if side))

    @property
    def steps(self) -> frozenset[str]:
        """The steps of the knobs of the merged file: those that no side took away."""
        base, ours, theirs = self.sides
        assert ours and theirs  # only the base may be missing
        before = base.steps if base else frozenset()
        return (ours.steps & theirs.steps) | (ours.steps ^ theirs.steps) - before

    @property
    def preferred(self) -> Version:
        """The side that is shown where both changed the same thing."""
        side = self.sides[1 if self.prefer == "ours" else 2]
        assert side is not None  # only the base may be missing
        return side

    def clash(self, block: Id, id: Id, label: str) -> None:
        """Keep what both sides changed in a statement."""
        found = self.clashes.setdefault((block, id), [])
        if label not in found:
            found.append(label)

    def clash_in(self, block: Id, id: Id, statement: Statement, parts: Sequence[Id]) -> None:
        """Keep which parts of a statement both sides changed."""
        for part in parts:
            self.clash(block, id, statement_label(block, statement, part))
