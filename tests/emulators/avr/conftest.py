"""A keyboard of four keys, built by either compiler, on each chip that the emulator knows."""

from __future__ import annotations

import functools
from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from matrixgen.emit.firmware_view import firmware_view
from matrixgen.emit.render import firmware_tree
from matrixgen.model import Keyboard
from matrixgen.toolchain import CompilerKind, Image, build, find_compiler
from tests.emulators.avr.board import AvrBoard, board
from tests.emulators.keyboards import profile, square
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
    keyboard: Keyboard
    image: Image
    descriptors: Descriptors


@functools.cache
def built(chip: str, kind: CompilerKind) -> Image:
    tree = firmware_tree(firmware_view(square(2, controller=chip), profile(chip)))
    compiler = find_compiler(kind)
    assert compiler is not None, f"the tests need {kind} for AVR"
    image = build(tree, chip, compiler)
    assert isinstance(image, Image), image.output
    return image


@pytest.fixture(params=BUILDS, ids="-".join)
def desk(request: pytest.FixtureRequest) -> Iterator[Desk]:
    """A fresh keyboard, enumerated, whose report is never repeated while idle."""
    chip, kind = request.param
    keyboard, image = square(2, controller=chip), built(chip, kind)
    with board(image, keyboard, profile(chip)) as running:
        host = UsbHost(running)
        descriptors = host.enumerate()
        host.set_idle(0)
        yield Desk(running, host, keyboard, image, descriptors)
