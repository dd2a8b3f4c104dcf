"""What a plate has besides its keys: places that are not for wires, and how it is made."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from matrixgen.model.component import ComponentKind, ComponentPlace
from matrixgen.model.plate import (
    CUT_OUT_MM,
    SCREWS,
    THICKNESS_MM,
    USUAL_SCREW,
    Area,
    ControllerPlace,
    CornerOutline,
    Hole,
    Outline,
)
from matrixgen.model.prose import quoted
from matrixgen.source.blocks.given_once import report_doubled
from matrixgen.source.blocks.millimetres import place
from matrixgen.source.names import KNOB, LIGHT, Names
from matrixgen.source.reporter import Reporter, every_token
from matrixgen.source.statements import STATEMENTS

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node, Token


class Places:
    """The places of a plate as they are read, wherever among its lines they stand."""

    def __init__(self, reporter: Reporter) -> None:
        self._reporter = reporter
        self._limits = reporter.limits
        self.holes: list[Hole] = []
        self.keep_clear: list[Area] = []
        self.controller: ControllerPlace | None = None
        self.outline: Outline | CornerOutline | None = None
        self.cut_out = CUT_OUT_MM
        self.thickness = THICKNESS_MM
        self.components: list[ComponentPlace] = []
        self._first: dict[str, Node] = {}
        self._names = {"light": Names(reporter, LIGHT), "knob": Names(reporter, KNOB)}

    def read(self, statement: Node) -> bool:
        """Read a statement of one of these kinds; False where it is of another."""
        read = READERS.get(statement.data)
        if read and not self._is_doubled(statement):
            read(self, statement)
        return read is not None

    def _put_component(self, statement: Node) -> None:
        kind: ComponentKind = "light" if statement.data == "light_place" else "knob"
        name, *numbers = every_token(statement)
        word = self._reporter.word(name)
        x, y = place(self._reporter, numbers)
        if self._names[kind].define(word):
            span = self._reporter.whole(statement)
            self.components.append(ComponentPlace(kind=kind, name=word, x=x, y=y, span=span))

    def _put_hole(self, statement: Node) -> None:
        *numbers, last = every_token(statement)
        given = last if last.type == "SCREW" else None
        x, y = place(self._reporter, numbers if given else [*numbers, last])
        self.holes.append(Hole(x, y, self._reporter.whole(statement), self._nominal(given)))

    def _nominal(self, given: Token | None) -> float:
        """Return a screw's size in millimetres, and report one that holes are not made for."""
        sizes = {one.name: one.nominal for one in SCREWS}
        if given is not None and given not in sizes:
            self._reporter.report(
                "unknown-screw",
                self._reporter.span(given),
                f"no hole is known for a screw of `{given}`",
                help=f"there is {quoted(sizes, 'or')}",
            )
        return sizes.get(given or "", USUAL_SCREW.nominal)

    def _put_area(self, statement: Node) -> None:
        numbers = every_token(statement)
        x, y = place(self._reporter, numbers[:2])
        least, reach = self._limits.least_area, self._limits.plate_reach
        width, height = (
            self._number(number, least, reach, what)
            for number, what in zip(numbers[2:], ("this width", "this height"), strict=True)
        )
        span = self._reporter.whole(statement)
        self.keep_clear.append(Area(x=x, y=y, width=width, height=height, span=span))

    def _put_controller(self, statement: Node) -> None:
        numbers = every_token(statement)
        x, y = place(self._reporter, numbers[:2])
        turned = [self._number(number, -360, 360, "this angle") for number in numbers[2:]]
        span = self._reporter.whole(statement)
        angle = turned[0] % 360 if turned else 0.0  # once around is no change
        self.controller = ControllerPlace(x=x, y=y, turned=angle, span=span)

    def _put_outline(self, statement: Node) -> None:
        from matrixgen.source.blocks.outline import outline_of  # only here: few files have one

        self.outline = outline_of(self._reporter, statement)

    def _put_cut_out(self, statement: Node) -> None:
        numbers, called = every_token(statement), ("the width in mm", "the height in mm")
        both = zip(numbers, called, strict=True)
        least, most = self._limits.least_cut_out, self._limits.cut_out
        width, height = (self._number(one, least, most, what) for one, what in both)
        self.cut_out = width, height

    def _put_thickness(self, statement: Node) -> None:
        (number,) = every_token(statement)
        least, most = self._limits.least_thickness, self._limits.thickness
        self.thickness = self._number(number, least, most, "the thickness in mm")

    def _is_doubled(self, statement: Node) -> bool:
        """Whether there is one already of a kind of which there may be only one; report that."""
        kind = STATEMENTS[statement.data]
        if kind.often == "any":
            return False
        first = self._first.setdefault(statement.data, statement)
        if first is not statement:
            report_doubled(self._reporter, statement, first, kind.called or kind.keyword or "")
        return first is not statement

    def _number(self, token: Token, least: float, most: float, what: str) -> float:
        return self._reporter.number_in(token, least, most, what).value

    def check_number(self) -> None:
        """Report the first of each kind beyond what a plate may have."""
        spans = [one.span for one in self.holes]
        self._reporter.at_most(self._limits.holes, spans, "screw hole", "a plate")
        spans = [one.span for one in self.keep_clear]
        self._reporter.at_most(self._limits.areas, spans, "keep-clear area", "a plate")


READERS: dict[str, Callable[[Places, Node], None]] = {
    "hole": Places._put_hole,
    "keep_clear": Places._put_area,
    "controller_place": Places._put_controller,
    "outline": Places._put_outline,
    "cut_out": Places._put_cut_out,
    "thickness": Places._put_thickness,
    "light_place": Places._put_component,
    "knob_place": Places._put_component,
}
"""What reads each kind of statement, by the grammar's rule."""
