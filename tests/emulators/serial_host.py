"""A USB host that drives a serial port by its class, as CDC 1.2 and PSTN 1.2 have it."""

from __future__ import annotations

import struct

from tests.emulators.usb_host import RECOVERY_MS, Transport, UsbHost

BULK_IN, BULK_OUT = 1, 3
PACKET, PACKET_OUT = 64, 16
CONTROL_PACKET = 64
SEND_ENCAPSULATED_COMMAND, GET_ENCAPSULATED_RESPONSE = 0, 1
SET_LINE_CODING, GET_LINE_CODING, SET_CONTROL_LINE_STATE, SEND_BREAK = 0x20, 0x21, 0x22, 0x23
ANSWERS = ("fact ", "rises ")
TO_INTERFACE, OF_INTERFACE = 0x21, 0xA1


class SerialHost(UsbHost):
    """The host of one serial port: packets of what it says are put together as a driver does."""

    def __init__(self, transport: Transport) -> None:
        super().__init__(transport)
        self.rest = b""  # of a line that has begun
        self.packets: list[bytes] = []
        self.answers: list[str] = []  # of the board for itself, as it gave them last

    def plug_in(self, address: int = 5) -> tuple[bytes, bytes]:
        """Reset, address, read and configure; return the device and configuration descriptors."""
        self.cable.reset()
        self.packet_size = self.descriptor(1, length=8)[7]
        self.cable.reset()
        self.write(0x00, 5, address, 0)
        self.cable.wait(RECOVERY_MS)
        device = self.descriptor(1, length=18)
        total = struct.unpack_from("<H", self.descriptor(2, length=9), 2)[0]
        configuration = self.descriptor(2, length=total)
        self.write(0x00, 9, configuration[5], 0)
        return device, configuration

    def set_line(self, baud: int, *, stop: int = 0, parity: int = 0, bits: int = 8) -> None:
        """PSTN 1.2 section 6.3.10."""
        coding = struct.pack("<IBBB", baud, stop, parity, bits)
        self.write(TO_INTERFACE, SET_LINE_CODING, 0, 0, coding)

    def line(self) -> bytes:
        """PSTN 1.2 section 6.3.11."""
        return self.read(OF_INTERFACE, GET_LINE_CODING, 0, 0, 7)

    def set_dtr(self, on: bool) -> None:
        """PSTN 1.2 section 6.3.12; RTS goes with it, as drivers do it."""
        self.write(TO_INTERFACE, SET_CONTROL_LINE_STATE, 3 if on else 0, 0)

    def say(self, text: bytes) -> None:
        """Write to the port, as many packets as it takes."""
        for start in range(0, len(text), PACKET_OUT):
            self._out(BULK_OUT, text[start : start + PACKET_OUT])

    def hear(self, milliseconds: float, step_ms: float = 0.25) -> list[str]:
        """Read all that the port has to say in some time; return the lines that have ended."""
        lines: list[str] = []
        passed = 0.0
        while passed < milliseconds:
            packet = self.cable.in_(BULK_IN)
            if packet is None:
                self.cable.wait(step_ms)
                passed += step_ms
                continue
            self.packets.append(packet)
            *ended, self.rest = (self.rest + packet).split(b"\r\n")
            lines += [line.decode("ascii") for line in ended]
        return lines

    def until_ready(self, patience_ms: float = 100) -> list[str]:
        """Read until the line `ready`; return all lines before it but those of `answers`."""
        lines = self.all_until_ready(patience_ms)
        self.answers = [line for line in lines if line.startswith(ANSWERS)]
        return [line for line in lines if not line.startswith(ANSWERS)]

    def all_until_ready(self, patience_ms: float = 100) -> list[str]:
        """Read until the line `ready`; return all lines before it."""
        lines: list[str] = []
        passed = 0.0
        while "ready" not in lines:
            assert passed < patience_ms, lines
            lines += self.hear(0.5)
            passed += 0.5
        assert lines[-1] == "ready"
        return lines[:-1]
