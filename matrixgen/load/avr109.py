"""The commands of serial boot loaders that speak AVR109.

Source: Atmel application note AVR109, "Self Programming", its table of commands; the facts sheet
of this project, G.1, has them as two independent programs speak them. Each command is a letter and
its operands as raw bytes; what a command does is answered by a carriage return, and what a loader
does not know by a question mark.

Only what a load needs is here. Fuses, lock bits and EEPROM are never written: the letters for
that, `l` and `B` with `E`, are nowhere in this room.
"""

from __future__ import annotations

import time

from matrixgen.failure import Failure
from matrixgen.load.failure import NoAnswer
from matrixgen.load.link import Link

DONE, YES, SERIAL, FLASH = b"\r", b"Y", b"S", b"F"
ENDED = DONE + b"?"
NOTHING = b"\x1b"
"""Escape: a command that does nothing and has no answer, and no kind of memory either."""

NAME_BYTES = 7
ANSWER_SECONDS, NAME_SECONDS, ERASE_SECONDS = 5.0, 0.8, 20.0
LONGEST_BLOCK = 256
"""Bytes of the largest page of these chips: what a loader may still wait for, left by another."""


TRIES = ((4, NAME_SECONDS), (LONGEST_BLOCK, NAME_SECONDS), (LONGEST_BLOCK, ANSWER_SECONDS))
"""Escapes that are sent before the name is asked for, and how long it is waited for."""


class Avr109:
    """A session with a boot loader at the other end of `link`."""

    def __init__(self, link: Link) -> None:
        self._link = link

    def wake(self) -> str:
        """Return the loader's name of seven letters; whatever it was in the middle of ends.

        A load that was cut off may have left it waiting for an operand or for the rest of a
        block. Escapes end both: as an operand they name no kind of memory, and as a block's data
        they go to the page that was being written, which is to be erased.

        A slow one answers the question that was given up before: the answers to those that came
        after it are awaited too, or they would be taken for those to what is asked next.

        Raises `NoAnswer` where nothing there speaks AVR109.
        """
        begin = time.monotonic()
        for unanswered, (escapes, seconds) in enumerate(TRIES):
            self._link.write(NOTHING * escapes)
            self._link.drain()
            self._link.write(b"S")
            name = self._name(seconds)
            if len(name) == NAME_BYTES and name.isascii() and name.decode().isprintable():
                if self._link.read(1, 0):  # it says more than a loader does
                    continue
                self._drop_names(unanswered, time.monotonic() - begin)
                return name.decode().strip()
        raise NoAnswer("no boot loader that speaks AVR109 answers there")

    def _name(self, seconds: float) -> bytes:
        """Return what comes as a name, without the answers to commands that the escapes ended."""
        name = self._link.read(NAME_BYTES, seconds)
        while (rest := name.lstrip(ENDED)) != name:
            name = rest + self._link.read(NAME_BYTES - len(rest), seconds)
        return name

    def _drop_names(self, count: int, passed: float) -> None:
        seconds = min(ANSWER_SECONDS, passed + NAME_SECONDS)
        while count and self._link.read(NAME_BYTES, seconds):
            count -= 1

    def enter_programming(self) -> None:
        """Say which chip is meant, from the loader's own list, and that programming begins."""
        if self._ask(b"p", 1) != SERIAL:
            raise Failure("the boot loader is not a serial one")
        self._link.write(b"t")
        codes = bytearray()
        while code := self._link.read(1, ANSWER_SECONDS).strip(b"\0"):
            codes += code
        if codes:
            self._do(b"T" + codes[:1], "take its own chip")
        self._do(b"P", "begin")

    def signature(self) -> bytes:
        """Return the chip's signature as the datasheet has it: the line has it the other way."""
        return self._ask(b"s", 3)[::-1]

    def block_bytes(self) -> int:
        """Return how many bytes a block may have; 0 where the loader takes no blocks."""
        self._link.write(b"b")
        if self._link.read(1, ANSWER_SECONDS) != YES:
            return 0
        return int.from_bytes(self._exactly(2), "big")

    def erase(self) -> None:
        """Erase the flash below the boot loader: that is all that a loader erases."""
        self._do(b"e", "erase the flash", ERASE_SECONDS)

    def write_block(self, address: int, data: bytes) -> None:
        """Write a page of flash, `address` in bytes from its start."""
        self._go_to(address)
        self._do(b"B" + len(data).to_bytes(2, "big") + FLASH + data, f"write at 0x{address:04X}")

    def read_block(self, address: int, count: int) -> bytes:
        """Return `count` bytes of flash from `address`, in bytes from its start."""
        self._go_to(address)
        return self._ask(b"g" + count.to_bytes(2, "big") + FLASH, count)

    def leave_programming(self) -> None:
        """Say that programming has ended."""
        self._do(b"L", "end")

    def start_program(self) -> None:
        """Leave the loader for the program; the board may be gone before it has answered."""
        self._link.write(b"E")
        self._link.read(1, NAME_SECONDS)

    def _go_to(self, address: int) -> None:
        word = address // 2  # flash is counted in words of two bytes
        self._do(b"A" + word.to_bytes(2, "big"), f"go to 0x{address:04X}")

    def _do(self, command: bytes, what: str, seconds: float = ANSWER_SECONDS) -> None:
        self._link.write(command)
        answer = self._link.read(1, seconds)
        if not answer:
            raise Failure("the boot loader stopped answering")
        if answer != DONE:
            raise Failure(f"the boot loader would not {what}: it answered {_shown(answer)}")

    def _ask(self, command: bytes, count: int) -> bytes:
        self._link.write(command)
        return self._exactly(count)

    def _exactly(self, count: int) -> bytes:
        answer = self._link.read(count, ANSWER_SECONDS)
        if len(answer) < count:
            raise Failure("the boot loader stopped answering")
        return answer


def _shown(answer: bytes) -> str:
    """Return a byte as a person reads it: as a letter if it is one, or else by its number."""
    letter = answer.decode("ascii", "replace")
    return (
        f"`{letter}`" if letter.isascii() and letter.isprintable() else f"0x{answer.hex().upper()}"
    )
