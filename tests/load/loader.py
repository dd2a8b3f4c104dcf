"""A model of a serial boot loader that speaks AVR109, and a pseudo-terminal that it sits behind.

Written from the facts sheet's G.1 (Atmel application note AVR109), and held to `avrdude`, which
writes, reads and verifies through it (`test_stand_in.py`). It protects nothing: it writes any page
that it is told to, so that a test sees whoever reaches into the boot loader's share. Flash is as
flash is: writing only clears bits, and erasing alone sets them.
"""

from __future__ import annotations

import contextlib
import os
import pty
import threading
import tty
from collections.abc import Generator
from typing import ClassVar

CR, UNKNOWN = b"\r", b"?"


class Chip:
    """Flash with a boot loader at its top, which takes one byte and answers with some."""

    is_mute = False

    def __init__(
        self,
        *,
        flash_bytes: int = 32768,
        loader_bytes: int = 4096,
        page_bytes: int = 128,
        signature: bytes = b"\x1e\x95\x87",
    ) -> None:
        self.loader_start = flash_bytes - loader_bytes
        self.flash = bytearray(b"\xff" * flash_bytes)
        self.flash[self.loader_start :] = bytes(at * 7 & 0xFF for at in range(loader_bytes))
        self.loader_share = bytes(self.flash[self.loader_start :])
        self.page_bytes, self.signature = page_bytes, signature
        self.started = False
        self.commands = bytearray()
        self.broken_cell: int | None = None
        self.power_on()

    @property
    def program(self) -> bytes:
        """What lies below the boot loader's share."""
        return bytes(self.flash[: self.loader_start])

    def power_on(self) -> None:
        """Start the loader anew: what it was in the middle of is forgotten."""
        self._address = 0
        self._answer = b""
        self._loader = self._run()
        next(self._loader)

    def take(self, byte: int) -> bytes:
        """Hand the loader a byte and return what it answers."""
        self._answer = b""
        self._loader.send(byte)
        return self._answer

    def _run(self) -> Generator[None, int, None]:
        plain = {
            ord("S"): b"STANDIN",
            ord("V"): b"10",
            ord("v"): UNKNOWN,
            ord("p"): b"S",
            ord("a"): b"Y",
            ord("b"): b"Y" + self.page_bytes.to_bytes(2, "big"),
            ord("t"): b"\x44\x00",
            ord("P"): CR,
            ord("L"): CR,
            ord("s"): self.signature[::-1],
            0x1B: b"",
        }
        while True:
            command = yield
            self.commands.append(command)
            if command in plain:
                self._answer = plain[command]
            elif command == ord("T"):
                yield
                self._answer = CR
            elif command == ord("A"):
                high = yield
                low = yield
                self._address = (high << 8 | low) * 2
                self._answer = CR
            elif command == ord("e"):
                self.flash[: self.loader_start] = b"\xff" * self.loader_start
                self._answer = CR
            elif command == ord("B"):
                yield from self._write_block()
            elif command == ord("g"):
                yield from self._read_block()
            elif command == ord("E"):
                self.started = True
                self._answer = CR
            else:
                self._answer = UNKNOWN

    def _write_block(self) -> Generator[None, int, None]:
        high = yield
        low = yield
        kind = yield
        if kind != ord("F"):
            self._answer = UNKNOWN
            return
        data = bytearray()
        for _ in range(high << 8 | low):
            data.append((yield))
        for offset, byte in enumerate(data):
            at = self._address + offset
            self.flash[at] &= byte
            if at == self.broken_cell:
                self.flash[at] |= 0x10
        self._address += len(data)
        self._answer = CR

    def _read_block(self) -> Generator[None, int, None]:
        high = yield
        low = yield
        kind = yield
        if kind != ord("F"):
            self._answer = UNKNOWN
            return
        end = self._address + (high << 8 | low)
        self._answer = bytes(self.flash[self._address : end])
        self._address = end


class Mute(Chip):
    """A board that runs its own program, and answers nothing."""

    is_mute = True

    def take(self, byte: int) -> bytes:
        return b""


class HeldChip(Chip):
    """A chip that stops in the middle of a block, says so, and waits until it may go on."""

    def __init__(self) -> None:
        super().__init__()
        self._blocks = 0
        self.is_there, self.goes_on = threading.Event(), threading.Event()

    def hold_at(self, blocks: int) -> None:
        """Stop in the block of this number, counted from now."""
        self.commands.clear()
        self.is_there.clear()
        self.goes_on.clear()
        self._blocks = blocks

    def take(self, byte: int) -> bytes:
        if self.commands.count(ord("B")) == self._blocks and not self.goes_on.is_set():
            self.is_there.set()
            self.goes_on.wait()
        return super().take(byte)


class OnTerminal:
    """A chip behind a pseudo-terminal, whose path is `path`; unplugged after `last` bytes."""

    mute_paths: ClassVar[set[str]] = set()
    """Where nobody has to wait for an answer, since none will come."""

    def __init__(self, chip: Chip, last: int | None = None) -> None:
        self.chip, self.last = chip, last
        self._master, self._slave = pty.openpty()
        tty.setraw(self._slave)
        self.path = os.ttyname(self._slave)
        (self.mute_paths.add if chip.is_mute else self.mute_paths.discard)(self.path)
        self._thread = threading.Thread(target=self._serve, daemon=True)
        self._thread.start()

    def _serve(self) -> None:
        taken = 0
        while True:
            try:
                data = os.read(self._master, 4096)
            except OSError:
                return
            if not data:
                return
            for byte in data:
                if taken == self.last:
                    self.unplug()
                    return
                taken += 1
                if answer := self.chip.take(byte):
                    os.write(self._master, answer)

    def unplug(self) -> None:
        """Take the port away: both ends are closed."""
        for end in (self._slave, self._master):
            with contextlib.suppress(OSError):
                os.close(end)


class InMemory:
    """A line to a chip without any system between; it breaks after `last` bytes were sent."""

    def __init__(self, chip: Chip, last: int | None = None) -> None:
        self.chip, self.last = chip, last
        self.sent = 0
        self._come = bytearray()

    def write(self, data: bytes) -> None:
        for byte in data:
            if self.sent == self.last:
                raise Killed
            self.sent += 1
            self._come += self.chip.take(byte)

    def read(self, count: int, seconds: float) -> bytes:
        got = bytes(self._come[:count])
        del self._come[:count]
        return got

    def drain(self) -> None:
        self._come.clear()


class Killed(BaseException):
    """The program that loads is gone, at once."""
