"""A keyboard of four keys, built by either compiler, on each chip that the emulator knows."""

from __future__ import annotations

import functools
from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from matrixgen.boards import Mounted
from matrixgen.families import CompilerKind
from matrixgen.toolchain import Image
from tests.emulators.avr.board import AvrBoard, board
from tests.emulators.images import image_of
from tests.emulators.keyboards import square
from tests.emulators.usb_host import Descriptors, UsbHost

BUILDS: tuple[tuple[str, CompilerKind], ...] = (
    ("atmega32u4", "gcc"),
    ("atmega32u4", "clang"),
    ("at90usb162", "gcc"),
    ("at90usb162", "clang"),
)


@dataclass
class Desk:
    """A keyboard plugged into a host."""

    chip: AvrBoard
    host: UsbHost
    mounted: Mounted
    image: Image
    descriptors: Descriptors


@functools.cache
def built(chip: str, kind: CompilerKind) -> Image:
    return image_of(square(2, controller=chip), kind)


@pytest.fixture(params=BUILDS, ids="-".join)
def desk(request: pytest.FixtureRequest) -> Iterator[Desk]:
    """A fresh keyboard, enumerated, whose report is never repeated while idle."""
    chip, kind = request.param
    mounted, image = square(2, controller=chip), built(chip, kind)
    with board(image, mounted) as running:
        host = UsbHost(running)
        descriptors = host.enumerate()
        host.set_idle(0)
        yield Desk(running, host, mounted, image, descriptors)
