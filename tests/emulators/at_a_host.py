"""A board of either family that runs, and the host that has enumerated it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from matrixgen.boards import Mounted
from matrixgen.toolchain import Image
from tests.emulators.avr.board import AvrBoard
from tests.emulators.avr.board import board as avr_board
from tests.emulators.rp2040.board import Rp2040Board
from tests.emulators.rp2040.board import board as rp2040_board
from tests.emulators.rp2040.builds import SHARE
from tests.emulators.usb_host import Descriptors, UsbHost


@contextmanager
def at_a_host(
    image: Image, mounted: Mounted
) -> Iterator[tuple[AvrBoard | Rp2040Board, UsbHost, Descriptors]]:
    """Yield both, and what the host read; the report is not repeated while idle."""
    solder = avr_board if mounted.profile.port == "avr" else rp2040_board
    with solder(image, mounted) as chip:
        if isinstance(chip, Rp2040Board):
            chip.share = SHARE
        host = UsbHost(chip)
        descriptors = host.enumerate()
        host.set_idle(0)
        yield chip, host, descriptors
