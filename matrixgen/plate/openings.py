"""What goes through the plate: cut-outs of switches and stabilisers, holes for screws and parts.

Millimetres, seen from the front; y grows downwards.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from matrixgen.model import Key, Plate
from matrixgen.model.geometry import Point, rectangle, turned_about
from matrixgen.model.knob_keys import knob_keys
from matrixgen.model.plate import HOUSING_MM, CutOutSize
from matrixgen.model.switch import RIM_MM, centre_mm, middle_mm
from matrixgen.plate.stabilisers import Stabiliser, stabilisers_on
from matrixgen.record import Record, changed

HOUSING_DOWN_MM = 0.9
"""How far its middle lies below the switch's: there is more room on the wire's side (memory)."""

Kind = Literal["switch", "stabiliser", "hole", "light", "knob"]


class Bar(Record, kw_only=True):
    """A rectangle, turned clockwise about its middle by some degrees, and the key that it is of."""

    kind: Kind
    key: str
    middle: Point
    width: float
    height: float
    turned: float

    @property
    def corners(self) -> tuple[Point, ...]:
        """Its corners, clockwise from the upper left one."""
        (x, y), right, down = self.middle, self.width / 2, self.height / 2
        upright = rectangle(x - right, y - down, x + right, y + down)
        return tuple(turned_about(corner, self.middle, self.turned) for corner in upright)

    def narrower(self, by: float) -> Bar:
        """Return it with each side so far in."""
        return changed(self, width=self.width - 2 * by, height=self.height - 2 * by)


class Circle(Record, kw_only=True):
    """A round hole, and its number among the file's, from 0: of screws, or of lights and knobs."""

    kind: Kind
    number: int
    middle: Point
    diameter: float

    def narrower(self, by: float) -> Circle:
        """Return it with its edge so far in."""
        return changed(self, diameter=self.diameter - 2 * by)


Opening = Bar | Circle


def openings_of(plate: Plate) -> tuple[Opening, ...]:
    """Return all that goes through a plate: switches, stabilisers, then holes, in plate order.

    A key that is a knob's switch has the knob's hole alone.
    """
    of_knobs = knob_keys(plate)
    switches = (_switch(key, plate.cut_out) for key in plate.keys if key.name.text not in of_knobs)
    return (*switches, *housings_of(plate), *_round_ones(plate))


def _round_ones(plate: Plate) -> Iterator[Circle]:
    for number, one in enumerate(plate.holes):
        middle, diameter = middle_mm(one), one.screw.hole_mm
        yield Circle(kind="hole", number=number, middle=middle, diameter=diameter)
    for number, part in enumerate(plate.components):
        middle, diameter = middle_mm(part), part.size.hole_mm
        yield Circle(kind=part.kind, number=number, middle=middle, diameter=diameter)


def cut_outs_of(plate: Plate) -> tuple[Bar, ...]:
    """Return the cut-out of each key, as if none were a knob's switch."""
    return tuple(_switch(key, plate.cut_out) for key in plate.keys)


def housing_at(bar: Bar) -> Bar:
    """Return what stands there: a switch with its rim, and of a stabiliser its cut-out alone."""
    return changed(bar, width=RIM_MM, height=RIM_MM) if bar.kind == "switch" else bar


def housings_of(plate: Plate) -> tuple[Bar, ...]:
    """Return the cut-outs for stabilisers, two by two, in plate order."""
    return tuple(one for each in stabilisers_on(plate) for one in _housings(each))


def _switch(key: Key, cut_out: CutOutSize) -> Bar:
    return Bar(
        kind="switch",
        key=key.name.text,
        middle=centre_mm(key),
        width=cut_out[0],
        height=cut_out[1],
        turned=key.turned,
    )


def _housings(one: Stabiliser) -> Iterator[Bar]:
    """Yield a stabiliser's two cut-outs; those of an upright one are turned to the left."""
    middle, turned = centre_mm(one.key), one.key.turned - 90 * one.is_upright
    width, height = HOUSING_MM
    for side in (-1, 1):
        at = middle[0] + side * one.offset_mm, middle[1] + HOUSING_DOWN_MM
        yield Bar(
            kind="stabiliser",
            key=one.key.name.text,
            middle=turned_about(at, middle, turned),
            width=width,
            height=height,
            turned=turned,
        )
