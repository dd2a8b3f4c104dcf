"""Which matrices a plate's keys can be wired in: the plate's own rows first, then fewer lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property
from typing import Literal

from matrixgen.circuit.lengths import centres_mm
from matrixgen.fit.layout import Layout
from matrixgen.fit.plan import Plan
from matrixgen.fit.search import Progress, lay_out
from matrixgen.model import AXES, Axis, Keyboard
from matrixgen.model.prose import counted
from matrixgen.record import Record

Origin = Literal["as wired", "as drawn", "folded"]

Size = tuple[int, int]
"""Rows and columns."""


class Shape(Record):
    """One matrix: where its size is from, and how it is laid out."""

    origin: Origin
    layout: Layout

    @property
    def size(self) -> Size:
        """Its rows and columns."""
        return len(self.layout.rows), len(self.layout.columns)

    @cached_property
    def needs(self) -> tuple[int, int, float]:
        """Its pins, jumpers and metres of wire, to the centimetre, as the table has them."""
        return self.layout.lines, self.layout.jumpers, round(self.layout.metres, 2)

    def is_better_than(self, other: Shape) -> bool:
        """Whether it needs no more of anything, and less of something."""
        pairs = zip(self.needs, other.needs, strict=True)
        return self.needs != other.needs and all(own <= others for own, others in pairs)


class Fitting(Record):
    """A keyboard whose keys are to be wired: they are known by their places on the plate."""

    keyboard: Keyboard

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The keys in plate order."""
        return tuple(key.name.text for key in self.keyboard.keys)

    @cached_property
    def place(self) -> dict[str, int]:
        """The place of each key on the plate."""
        return {name: number for number, name in enumerate(self.names)}

    @cached_property
    def plan(self) -> Plan:
        """Where the keys are."""
        return Plan(tuple(centres_mm(self.keyboard).values()))

    @cached_property
    def drawn(self) -> list[list[int]]:
        """The plate's own lines."""
        place = self.place
        return [[place[key.name.text] for key in line.keys] for line in self.keyboard.plate.lines]

    @property
    def drawn_size(self) -> Size:
        """The matrix that the plate's lines make."""
        return len(self.drawn), max(map(len, self.drawn))

    @property
    def size(self) -> Size:
        """The matrix that the file has, or else the one that its plate's lines make."""
        wired = self.wired
        return (len(wired.rows), len(wired.columns)) if wired else self.drawn_size

    @cached_property
    def wired(self) -> Layout | None:
        """The matrix as the file has it; None where it leaves a key out."""
        rows, columns = map(self._runs, AXES)
        whole = set(range(len(self.names)))
        if any({key for run in runs for key in run} != whole for runs in (rows, columns)):
            return None
        return Layout(self.plan, rows, columns)

    def _runs(self, axis: Axis) -> tuple[tuple[int, ...], ...]:
        lines = self.keyboard.wiring.of_axis(axis)
        return tuple(tuple(self.place[word.text] for word in line.visits) for line in lines)


def smaller_sizes(keys: int, most_lines: int) -> list[Size]:
    """Return each matrix that holds the keys with fewer lines than so many.

    None of them could do with a row or a column less. Those with fewer lines come later.
    """
    sizes = [(rows, -(-keys // rows)) for rows in range(1, keys + 1)]
    fewer = (
        (rows, columns)
        for rows, columns in sizes
        if rows + columns < most_lines and -(-keys // columns) == rows
    )
    return sorted(fewer, key=lambda size: (-sum(size), size))


def shapes_of(fitting: Fitting, progress: Progress = lambda: None) -> Iterator[Shape]:
    """Yield the matrix as it is wired or as it is drawn, and each one with fewer lines."""
    wired, plan, drawn = fitting.wired, fitting.plan, fitting.drawn
    if wired:
        yield Shape("as wired", wired)
        most = wired.lines
    else:
        rows, columns = fitting.drawn_size
        layout = lay_out(plan, rows, columns, drawn=drawn, progress=progress)
        if layout:
            yield Shape("as drawn", layout)
        most = rows + columns
    for rows, columns in smaller_sizes(len(plan.points), most):
        layout = lay_out(plan, rows, columns, drawn=drawn, progress=progress)
        if layout:
            yield Shape("folded", layout)


def better_than(shape: Shape, shapes: Iterable[Shape]) -> Shape | None:
    """Return the first of some matrices that is better than one in all that it needs, if any."""
    return next((other for other in shapes if other.is_better_than(shape)), None)


def why_not(rows: int, columns: int, keys: int) -> tuple[str, str] | None:
    """Return why a matrix does not hold so many keys, and what would; None where it does."""
    if rows > keys or columns > keys:
        axis = "rows" if rows > keys else "columns"
        why = f"{max(rows, columns)} {axis} are more than the plate has keys: {keys}"
        return why, "each needs at least one key"
    if rows * columns >= keys:
        return None
    holds = f"{counted(rows, 'row')} and {counted(columns, 'column')} hold {rows * columns} keys"
    helps = (_need(rows, "row", keys, "column"), _need(columns, "column", keys, "row"))
    return f"{holds}, and the plate has {keys}", ", ".join(helps)


def _need(lines: int, axis: str, keys: int, other: str) -> str:
    """Return how many lines of the other axis so many lines take."""
    need = "needs" if lines == 1 else "need"
    return f"{counted(lines, axis)} {need} {counted(-(-keys // lines), other)}"
