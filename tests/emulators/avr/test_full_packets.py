"""Descriptors whose length is a whole number of packets end with an empty packet."""

from __future__ import annotations

import pytest

from tests.emulators.avr.board import board
from tests.emulators.images import image_of
from tests.emulators.keyboards import square
from tests.emulators.usb_host import UsbHost, string_of


@pytest.mark.parametrize("characters", [15, 31, 63, 126])
def test_a_string_that_fills_its_packets_arrives_whole(characters: int) -> None:
    """USB 2.0 section 8.5.3.2; 15, 31 and 63 characters make 1, 2 and 4 packets of 32 bytes."""
    name = "k" * characters
    mounted = square(2, name=name)
    with board(image_of(mounted, "gcc"), mounted) as running:
        host = UsbHost(running)
        assert string_of(host.enumerate().strings[1]) == name
        whole = 2 + 2 * characters
        assert len(host.descriptor(3, 2, whole)) == whole  # no empty packet: asked for exactly
