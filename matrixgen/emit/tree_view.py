"""What the templates of both firmwares see: names on USB, the lines of a controller, their pins."""

from __future__ import annotations

from typing import ClassVar

from matrixgen import __version__
from matrixgen.boards import Profile
from matrixgen.emit.c_text import usb_string
from matrixgen.emit.line_views import LineView, PortView, ShiftView, ports_of, shift_views
from matrixgen.record import Record


class TreeView(Record, kw_only=True):
    """What every template gets as `view`, for a keyboard and for a bench.

    `port` is the folder of the chip family under `templates/firmware/ports`.
    """

    product: str
    maker: str
    vendor_id: int
    product_id: int
    drives: tuple[LineView, ...]
    senses: tuple[LineView, ...]
    pulled_up: tuple[PortView, ...]
    settle_us: int
    source_name: str
    port: str
    profile: Profile

    tool_version: ClassVar = __version__

    @property
    def chip(self) -> str:
        """The chip's name in lower case."""
        return self.profile.chip.lower()

    @property
    def sense_ports(self) -> tuple[PortView, ...]:
        """The ports that sensed lines are on, with their bits, in alphabetical order."""
        return ports_of(self.senses)

    @property
    def sense_shifts(self) -> tuple[ShiftView, ...]:
        """The sensed lines by how far each one's bit lies from its number."""
        return shift_views(self.senses)

    @property
    def product_bytes(self) -> tuple[int, ...]:
        """The product's USB string descriptor."""
        return usb_string(self.product)

    @property
    def maker_bytes(self) -> tuple[int, ...]:
        """The maker's USB string descriptor."""
        return usb_string(self.maker)
