"""The bench on a serial port."""

from __future__ import annotations

import time
from typing import Protocol

from matrixgen.bench.serial.press import ClosedPairs
from matrixgen.bench.serial.protocol import HeldHigh, Listener
from matrixgen.bench.serial.self_report import Answers
from matrixgen.failure import Failure
from matrixgen.ports.listing import serial_ports
from matrixgen.ports.opening import open_patiently

BAUD = 115_200
"""Over USB any rate will do; this is the one that is given."""

READ_S = 0.02
ANSWER_S = 2.0
"""How long a bench may take to say everything: a few hundred lines over USB take far less."""

TRIES = 3
AGAIN = b"?\n"
NO_BENCH = (
    "load the bench firmware into the controller first, and close other programs on this port"
)


class SerialPort(Protocol):
    """What is used of a serial port."""

    def read(self, size: int) -> bytes:
        """Return bytes that came, after a short wait none."""

    def write(self, data: bytes) -> object:
        """Send bytes."""

    def close(self) -> None:
        """Leave the port."""


def chosen_port(given: str | None) -> str:
    """Return the port to use; `Failure` where none was given and it is not clear which.

    Nothing is sent to a port that is not the bench firmware's and was not named.
    """
    if given:
        return given
    ports = serial_ports()
    benches = [port for port in ports if port.is_bench]
    if len(benches) == 1:
        return benches[0].path
    if not ports:
        raise Failure("there is no USB serial port", NO_BENCH)
    listed = ", ".join(f"`{port.shown}`" for port in benches or ports)
    if benches:
        raise Failure(f"there are several: {listed}", "choose one with `--port PORT`")
    raise Failure(
        f"no port is that of the bench firmware; there is {listed}",
        NO_BENCH,
        "`--port PORT` uses another port all the same",
    )


def open_port(name: str) -> SerialPort:
    """Open a serial port; `Failure` where that cannot be."""
    port = open_patiently(name, BAUD)
    port.timeout = READ_S
    return port


class Bench:
    """A bench that listens; `chip` and `pins` are what it says of itself."""

    def __init__(self, port: SerialPort, name: str) -> None:
        self._port, self._name = port, name
        self.heard = Listener()

    def start(self) -> None:
        """Ask for everything until it has come whole; `Failure` where it does not."""
        for _ in range(TRIES):
            self.heard.forget()
            self._write()
            end = time.monotonic() + ANSWER_S
            while time.monotonic() < end and not self.heard.is_ready:
                self.listen()
            if self.heard.is_ready and not self.heard.is_torn:
                self.heard.states = []
                return
        raise self._silent()

    def listen(self) -> None:
        """Take what has come; wait a moment for it. Raises `HeldHigh`, once all has been said."""
        import serial

        was_ready = self.heard.is_ready
        try:
            self.heard.feed(self._port.read(4096))
        except (serial.SerialException, OSError):
            raise Failure(
                f"the controller on `{self._name}` went away", "plug it in again and start again"
            ) from None
        if self.heard.is_ready and self.heard.high:
            raise HeldHigh(self.heard.chip or "", tuple(self.heard.high), is_late=was_ready)
        if self.heard.is_ready and self.heard.is_torn:
            self.heard.is_torn = False
            self._write()  # a line was lost: hear everything again

    def states(self) -> list[ClosedPairs]:
        """Return what was closed after each change since this was asked last, and is closed now.

        Two changes may come at once, so that a short press would not be seen in the end of them.
        """
        if not self.heard.is_ready:  # in the middle of saying everything again
            return []
        states, self.heard.states = self.heard.states, []
        return [*states, self.closed]

    @property
    def closed(self) -> ClosedPairs:
        """The pairs that are closed now."""
        return frozenset(self.heard.closed)

    @property
    def answers(self) -> Answers:
        """What the board has answered for itself."""
        heard = self.heard
        return Answers(chip=heard.chip or "", facts=dict(heard.facts), rises=dict(heard.rises))

    def _write(self) -> None:
        import serial

        try:
            self._port.write(AGAIN)
        except (serial.SerialException, OSError):
            raise Failure(f"nothing can be sent to `{self._name}`", NO_BENCH) from None

    def _silent(self) -> Failure:
        if not self.heard.foreign:
            return Failure(f"nothing answers on `{self._name}`", NO_BENCH)
        line = self.heard.foreign[0][:60]
        return Failure(
            f"the device on `{self._name}` does not run the bench firmware: it sent `{line}`",
            NO_BENCH,
        )
