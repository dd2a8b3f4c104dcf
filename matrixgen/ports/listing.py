"""Which serial ports there are over USB, and which of them is the bench firmware's."""

from __future__ import annotations

from matrixgen.model.keyboard import BENCH_PRODUCT_ID, TEST_VENDOR_ID
from matrixgen.record import Record

BENCH_IDS = f"{TEST_VENDOR_ID:04X}:{BENCH_PRODUCT_ID:04X}"


class Port(Record):
    """A serial port of something on USB: its path and what it calls itself."""

    path: str
    title: str
    ids: str

    @property
    def is_bench(self) -> bool:
        """Whether it is the bench firmware's, by its ids: nothing else of ours is a serial port."""
        return self.ids == BENCH_IDS

    @property
    def shown(self) -> str:
        """A line for people: `/dev/ttyACM0  Stick (1B4F:9205)`."""
        return f"{self.path}  {self.title} ({self.ids})"


def serial_ports() -> tuple[Port, ...]:
    """Return the serial ports of what is on USB now, by their paths; others are no board's."""
    from serial.tools import list_ports  # only here: no other command needs it

    found = (
        Port(
            port.device,
            port.product or port.description or "no name",
            f"{port.vid:04X}:{port.pid:04X}",
        )
        for port in list_ports.comports()
        if port.vid is not None and port.pid is not None
    )
    return tuple(sorted(found, key=lambda port: port.path))
