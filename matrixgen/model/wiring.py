"""The wires: which keys each visits, which are driven, which are read, where the diodes point."""

from __future__ import annotations

from typing import Literal

from matrixgen.model.component import Component
from matrixgen.model.knob import Knob
from matrixgen.model.light import Light
from matrixgen.model.text import Number, Span, Word
from matrixgen.model.work import AnyOrder, Cosmetic, Reflash, Solder, Spelling
from matrixgen.record import Record

Axis = Literal["row", "column"]

AXES: tuple[Axis, Axis] = ("row", "column")


def other_axis(axis: Axis) -> Axis:
    """Return the axis that crosses this one."""
    return "column" if axis == "row" else "row"


class Line(Record, kw_only=True):
    """A row or column wire, and the keys it visits, in soldering order.

    A key that stands in a run such as `Tab to Enter`, and is not one of its ends, has the run's
    span. Where the wire's end goes is not here: see `Mounting`.
    """

    axis: Solder[Axis]
    name: Cosmetic[Word]
    colour: Cosmetic[Word | None]
    visits: Solder[tuple[Word, ...]]
    span: Span


class DiodeRule(Record):
    """Which diode sits at each switch, and towards which lines its band (cathode) points."""

    part: Solder[Word]
    band_toward: Solder[Axis]
    span: Span


class Wiring(Record, kw_only=True):
    """The matrix as it is soldered. `drive` says which lines the firmware pulls low in turn.

    `span` is the whole block and `keyword` its first word. A file without the block has a wiring
    without lines, and `is_given` is false. `without_spans` has each statement `without diode`.
    """

    drive: Reflash[Axis]
    drive_span: Span
    diodes: DiodeRule | None = None
    without_diode: Solder[AnyOrder[Word]] = ()
    without_spans: tuple[Span, ...] = ()
    reversed: Solder[AnyOrder[Word]] = ()
    settle_us: Reflash[Number | None] = None
    lines: Reflash[tuple[Line, ...]] = ()
    keyword: Span
    span: Span
    is_given: Spelling[bool] = True
    lights: Reflash[AnyOrder[Light]] = ()
    knobs: Reflash[AnyOrder[Knob]] = ()

    @property
    def components(self) -> tuple[Component, ...]:
        """Everything but wires that has pins of its own: lights, then knobs."""
        return (*self.lights, *self.knobs)

    def of_axis(self, axis: Axis) -> tuple[Line, ...]:
        """Return the row wires or the column wires, in file order."""
        return tuple(line for line in self.lines if line.axis == axis)

    @property
    def says_drive(self) -> bool:
        """Whether the file says what is driven; else it follows from the bands."""
        follows_from = (self.keyword, self.diodes.span if self.diodes else self.keyword)
        return self.is_given and self.drive_span not in follows_from

    @property
    def sense(self) -> Axis:
        """The lines that the firmware reads while it pulls a driven line low."""
        return other_axis(self.drive)
