"""The lines of the matrix as the firmware's templates see them: numbers, ports and bits."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from matrixgen.boards import Mounted, Pin
from matrixgen.families import Family, PinPlace
from matrixgen.model import Line
from matrixgen.record import Record


class PinView(Record, kw_only=True):
    """A line, a contact or a light: its number among them, its pin, and that pin's registers.

    `port` is the port's letter, or nothing, and `bit` the bit there.
    """

    number: int
    pin: str
    port: str
    bit: int


class LineView(PinView, kw_only=True):
    """A line as the firmware numbers it; `axis` is a row or a column, or a pin of the bench."""

    name: str
    axis: str
    keys: tuple[str, ...] = ()


class PortView(Record):
    """Some bits of one port, in ascending order."""

    port: str
    bits: tuple[int, ...]


class ShiftView(Record):
    """Lines whose bits lie as far from their numbers as each other: one shift reads them all."""

    shift: int
    lines: tuple[PinView, ...]

    def of(self, value: str) -> str:
        """Return the C expression that brings the bits of `value` to their places."""
        return _shifted(value, self.shift)

    def back(self, value: str) -> str:
        """Return the C expression that brings them back."""
        return _shifted(value, -self.shift)


def _shifted(value: str, right: int) -> str:
    if right == 0:
        return value
    return f"{value} >> {right}" if right > 0 else f"{value} << {-right}"


def line_views(
    lines: Iterable[Line], mounted: Mounted, family: Family | None
) -> tuple[LineView, ...]:
    """Return lines that each end on a pin of the controller, in the order of their numbers.

    Without a family, as for the host, a line has no port and its number for a bit.
    """
    return tuple(_line(number, line, mounted, family) for number, line in enumerate(lines))


def _line(number: int, line: Line, mounted: Mounted, family: Family | None) -> LineView:
    pin = mounted.pin_of(line)
    place = _place(pin, family) if family else PinPlace("", number)
    assert place is not None, f"line {line.name} was let through with a pin of another family"
    return LineView(
        number=number,
        name=line.name.text,
        axis=line.axis,
        pin=pin.name if pin else "",
        port=place.port,
        bit=place.bit,
        keys=tuple(key.text for key in line.visits),
    )


def _place(pin: Pin | None, family: Family | None) -> PinPlace | None:
    return family.place_of(pin.name) if pin and family else None


def pulled_up(
    lines: Iterable[PinView], free: Iterable[Pin], family: Family | None
) -> tuple[PortView, ...]:
    """Return the pins that get a pull-up, by port: all lines, and all free pins."""
    places = {(line.port, line.bit) for line in lines}
    found = (_place(pin, family) for pin in free)
    places |= {(place.port, place.bit) for place in found if place}
    return _by_port(places)


def ports_of(lines: Iterable[PinView]) -> tuple[PortView, ...]:
    """Return the pins of lines, by port."""
    return _by_port({(line.port, line.bit) for line in lines})


def _by_port(places: Iterable[tuple[str, int]]) -> tuple[PortView, ...]:
    by_port = groupby(sorted(places), key=lambda place: place[0])
    return tuple(PortView(port, tuple(bit for _, bit in group)) for port, group in by_port)


def shift_views(lines: Sequence[PinView]) -> tuple[ShiftView, ...]:
    """Return the sensed lines by how far each one's bit lies from its number."""
    shifts = sorted({line.bit - line.number for line in lines})
    return tuple(
        ShiftView(shift, tuple(line for line in lines if line.bit - line.number == shift))
        for shift in shifts
    )
