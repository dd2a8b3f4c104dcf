"""The pointer and the wheels of a keyboard, as the firmware has them: their report and speeds."""

from __future__ import annotations

from matrixgen.behaviour.pointer import REPORT
from matrixgen.model import Keyboard
from matrixgen.model.speeds import Speed
from matrixgen.record import Record

DESCRIPTOR_BYTES = 61
"""How long its part of the report descriptor is: see `table_media.c.j2`, where C counts it."""

CURVE_BYTES = 28
"""Of flash for each of two speeds: seven numbers of 32 bits."""


class CurveView(Record):
    """A row of the table of speeds: its numbers, and the speed in words."""

    numbers: tuple[int, ...]
    comment: str


class PointerView(Record):
    """Whether there is a key of the pointer, and how fast the pointer and the wheels go."""

    curves: tuple[CurveView, ...]

    @property
    def is_there(self) -> bool:
        """Whether the keyboard has any of it."""
        return bool(self.curves)

    @property
    def report(self) -> int:
        """The number of its report."""
        return REPORT

    @property
    def descriptor_bytes(self) -> int:
        """How long its part of the report descriptor is."""
        return DESCRIPTOR_BYTES if self.is_there else 0

    @property
    def table_bytes(self) -> int:
        """How many bytes of flash its tables take."""
        return self.descriptor_bytes + CURVE_BYTES * len(self.curves)


def pointer_view(keyboard: Keyboard) -> PointerView:
    """Return the view of a keyboard."""
    settings = keyboard.effective
    speeds = (("pointer", settings.pointer), ("wheels", settings.wheel))
    return PointerView(tuple(_curve(name, speed) for name, speed in speeds if speed))


def _curve(name: str, speed: Speed) -> CurveView:
    along, aslant = speed.curve, speed.curve.diagonal
    numbers = (along.unit, *(n for one in (along, aslant) for n in (one.start, one.grow, one.most)))
    start, most, within_ms = speed.start, speed.most, speed.within_ms
    words = f"{start} to {most} steps a second within {within_ms} ms"
    return CurveView(numbers, f"{name}: {words if start < most else f'{most} steps a second'}")
