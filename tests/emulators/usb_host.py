"""A USB host as far as a keyboard needs one, over any emulator's end of the cable.

It does what USB 2.0 asks of a host: it tries again while the device is not ready, waits where the
standard lets a device take time, and ends a transfer as section 8.5.3 says.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass
from typing import Protocol

PATIENCE_MS = 50
"""USB 2.0 section 9.2.6.4: a device may take 50 ms for a request without data."""

RECOVERY_MS = 2
"""USB 2.0 section 9.2.6.3: a device has 2 ms after SET_ADDRESS before it must answer there."""

TO_HOST = 0x80


class Stall(Exception):
    """The device answered STALL."""


class NoAnswer(Exception):
    """The device was not ready for longer than a host waits."""


class Transport(Protocol):
    """One end of a cable. Packets are tried once: `None` and `False` mean "not ready" (NAK)."""

    def reset(self) -> None:
        """Reset the bus, and give the device the 10 ms of USB 2.0 section 7.1.7.5."""

    def setup(self, packet: bytes) -> None:
        """Send a SETUP packet, which a device must take."""

    def in_(self, endpoint: int) -> bytes | None:
        """Ask for a packet. Raises `Stall`."""

    def out(self, endpoint: int, data: bytes) -> bool:
        """Send a packet. Raises `Stall`."""

    def wait(self, milliseconds: float) -> None:
        """Let time pass on the device."""


@dataclass(frozen=True)
class Descriptors:
    """All that a host reads when a keyboard is plugged in, as bytes."""

    device: bytes
    configuration: bytes
    strings: tuple[bytes, ...]
    report: bytes


class UsbHost:
    """The host of one keyboard with one configuration, and one interface or two."""

    def __init__(self, transport: Transport) -> None:
        self.cable = transport
        self.packet_size = 8

    # --- control transfers ---------------------------------------------------------------------

    def read(self, kind: int, request: int, value: int, index: int, length: int) -> bytes:
        """Do a request with data to the host. Raises `Stall`, `NoAnswer`."""
        self.cable.setup(struct.pack("<BBHHH", kind, request, value, index, length))
        data = b""
        while len(data) < length:
            packet = self._in(0)
            data += packet
            if len(packet) < self.packet_size:
                break
        if length:
            self._out(0, b"")
        else:
            self._in(0)
        return data

    def write(self, kind: int, request: int, value: int, index: int, data: bytes = b"") -> None:
        """Do a request with data to the device, or none. Raises `Stall`, `NoAnswer`."""
        self.cable.setup(struct.pack("<BBHHH", kind, request, value, index, len(data)))
        for start in range(0, len(data), self.packet_size):
            self._out(0, data[start : start + self.packet_size])
        packet = self._in(0)
        assert packet == b"", f"the status packet holds {packet.hex()}"

    def refuses(self, kind: int, request: int, value: int, index: int, length: int) -> bool:
        """Return whether the device answers a request with STALL."""
        try:
            if kind & TO_HOST:
                self.read(kind, request, value, index, length)
            else:
                self.write(kind, request, value, index, bytes(length))
        except Stall:
            return True
        return False

    def _in(self, endpoint: int, patience_ms: float = PATIENCE_MS) -> bytes:
        for _ in range(int(patience_ms * 20)):
            packet = self.cable.in_(endpoint)
            if packet is not None:
                return packet
            self.cable.wait(0.05)
        raise NoAnswer(f"nothing from endpoint {endpoint}")

    def _out(self, endpoint: int, data: bytes) -> None:
        for _ in range(PATIENCE_MS * 20):
            if self.cable.out(endpoint, data):
                return
            self.cable.wait(0.05)
        raise NoAnswer(f"endpoint {endpoint} takes nothing")

    # --- what a host does with a keyboard ------------------------------------------------------

    def descriptor(self, kind: int, number: int = 0, length: int = 255, *, index: int = 0) -> bytes:
        """Return a descriptor of the device (USB 2.0 section 9.4.3)."""
        return self.read(0x80, 6, kind << 8 | number, index, length)

    def interface_descriptor(self, kind: int, length: int = 4096, *, interface: int = 0) -> bytes:
        """Return the HID (0x21) or report (0x22) descriptor (HID 1.11 section 7.1.1)."""
        return self.read(0x81, 6, kind << 8, interface, length)

    def enumerate(self, address: int = 5) -> Descriptors:
        """Reset, address, read and configure the device, in the order common hosts do it."""
        self.cable.reset()
        self.packet_size = 8
        self.packet_size = self.descriptor(1, length=8)[7]
        self.cable.reset()
        self.write(0x00, 5, address, 0)
        self.cable.wait(RECOVERY_MS)
        device = self.descriptor(1, length=18)
        total = struct.unpack_from("<H", self.descriptor(2, length=9), 2)[0]
        configuration = self.descriptor(2, length=total)
        languages = self.descriptor(3)
        language = struct.unpack_from("<H", languages, 2)[0]
        numbers = [number for number in device[14:17] if number]
        strings = tuple(self.descriptor(3, number, index=language) for number in numbers)
        self.write(0x00, 9, configuration[5], 0)
        report = self.interface_descriptor(0x22)
        return Descriptors(device, configuration, strings, report)

    def set_idle(self, milliseconds: int) -> None:
        """HID 1.11 section 7.2.4: 0 stands for no report without a change."""
        self.write(0x21, 0x0A, milliseconds // 4 << 8, 0)

    def set_protocol(self, *, boot: bool) -> None:
        """HID 1.11 section 7.2.6."""
        self.write(0x21, 0x0B, 0 if boot else 1, 0)

    def set_leds(self, leds: int) -> None:
        """HID 1.11 section 7.2.2, an output report."""
        self.write(0x21, 0x09, 2 << 8, 0, bytes([leds]))

    def poll(self, milliseconds: int = 1) -> list[bytes]:
        """Poll the keyboard once each millisecond; return the reports it gave."""
        reports = []
        for _ in range(milliseconds):
            self.cable.wait(1)
            report = self.cable.in_(1)
            if report is not None:
                reports.append(report)
        return reports

    def poll_both(self, milliseconds: int = 1) -> tuple[list[bytes], list[bytes]]:
        """Poll both interfaces once each millisecond; return the reports of each."""
        reports: tuple[list[bytes], list[bytes]] = ([], [])
        for _ in range(milliseconds):
            self.cable.wait(1)
            for number, given in enumerate(reports, 1):
                report = self.cable.in_(number)
                if report is not None:
                    given.append(report)
        return reports


def string_of(descriptor: bytes) -> str:
    """Return the text of a string descriptor (USB 2.0 section 9.6.7)."""
    assert descriptor[0] == len(descriptor) and descriptor[1] == 3
    return descriptor[2:].decode("utf-16-le")
