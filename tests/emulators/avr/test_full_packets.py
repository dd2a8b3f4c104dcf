"""Descriptors whose length is a whole number of packets end with an empty packet."""

from __future__ import annotations

import pytest

from matrixgen.emit.firmware_view import firmware_view
from matrixgen.emit.render import firmware_tree
from matrixgen.toolchain import Image, build, find_compiler
from tests.emulators.avr.board import board
from tests.emulators.keyboards import profile, square
from tests.emulators.usb_host import UsbHost, string_of


@pytest.mark.parametrize("characters", [15, 31, 63, 126])
def test_a_string_that_fills_its_packets_arrives_whole(characters: int) -> None:
    """USB 2.0 section 8.5.3.2; 15, 31 and 63 characters make 1, 2 and 4 packets of 32 bytes."""
    name = "k" * characters
    keyboard = square(2, name=name)
    chip = profile("atmega32u4")
    compiler = find_compiler("gcc")
    assert compiler is not None
    image = build(firmware_tree(firmware_view(keyboard, chip)), "atmega32u4", compiler)
    assert isinstance(image, Image), image.output
    with board(image, keyboard, chip) as running:
        host = UsbHost(running)
        assert string_of(host.enumerate().strings[1]) == name
        whole = 2 + 2 * characters
        assert len(host.descriptor(3, 2, whole)) == whole  # no empty packet: asked for exactly
