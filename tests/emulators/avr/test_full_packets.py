"""Descriptors whose length is a whole number of packets end with an empty packet."""

from __future__ import annotations

import struct

import pytest

from tests.emulators.avr.board import board
from tests.emulators.images import image_of
from tests.emulators.keyboards import square
from tests.emulators.usb_host import UsbHost, string_of


@pytest.mark.parametrize("characters", [31, 63, 126])
def test_a_string_that_fills_its_packets_arrives_whole(characters: int) -> None:
    """USB 2.0 section 8.5.3.2; 31 and 63 characters make 1 and 2 packets of 64 bytes."""
    name = "k" * characters
    mounted = square(2, name=name)
    with board(image_of(mounted, "gcc"), mounted) as running:
        host = UsbHost(running)
        assert string_of(host.enumerate().strings[1]) == name
        whole = 2 + 2 * characters
        assert len(host.descriptor(3, 2, whole)) == whole  # no empty packet: asked for exactly


def test_a_transfer_of_several_packets_may_be_ended_after_the_first() -> None:
    """USB 2.0 section 8.5.3.2: the status stage may come before all data have been sent."""
    mounted = square(2, name="k" * 100)
    with board(image_of(mounted, "gcc"), mounted) as running:
        host = UsbHost(running)
        device = host.enumerate().device
        running.setup(struct.pack("<BBHHH", 0x80, 6, 0x0302, 0x0409, 255))
        running.wait(1)
        assert len(running.in_(0) or b"") == 64
        assert running.out(0, b"")
        running.wait(1)
        assert host.descriptor(1, length=18) == device
