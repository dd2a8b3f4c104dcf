"""An image into the flash of an AVR chip, through a boot loader, so that a half load does no harm.

In this order: whose chip it is and whether the image leaves the boot loader's share alone; erase;
every page but the first, written and read back; the first page last. It holds the vector of the
reset: while it is erased a loader knows that there is no program and stays (loaders that look at
the first word; from memory), and no half program is started by it. A chip obeys SPM, which writes
flash, in the boot loader's share alone (ATmega16U4/32U4 datasheet, 7766J, "Boot Loader Support";
from memory), so that a half program cannot write there either.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress

from matrixgen.failure import Failure
from matrixgen.families import ChipFlash
from matrixgen.load.avr109 import Avr109
from matrixgen.load.failure import AGAIN
from matrixgen.record import Record

ERASED = 0xFF
"""What a byte of erased flash reads."""


class FlashJob(Record):
    """What goes where: the bytes from the start of flash, the chip, the bytes that they may take.

    `room_bytes` is the flash less the boot loader's share, at whose top that lies.
    """

    image: bytes
    flash: ChipFlash
    room_bytes: int

    def pages(self) -> Iterator[tuple[int, bytes]]:
        """Yield each page that the image reaches with its address, the first one last."""
        size = self.flash.page_bytes
        for address in (*range(size, len(self.image), size), 0):
            piece = self.image[address : address + size]
            yield address, piece.ljust(size, bytes((ERASED,)))

    @property
    def steps(self) -> int:
        """How many pages there are."""
        return sum(1 for _ in self.pages())


def refuse_overrun(used: int, room: int) -> None:
    """Raise `Failure` for an image that would reach into the boot loader's share, in bytes."""
    if used > room:
        raise Failure(
            f"the image takes {used:,} bytes, but the boot loader begins after {room:,}",
            "nothing was erased: a smaller image is needed, or another controller",
        )


def write_flash(loader: Avr109, job: FlashJob, progress: Callable[[], object]) -> None:
    """Write an image through a loader that has been woken, check it and start it.

    Raises `Failure`; what has been erased by then is the program, never the loader.
    """
    refuse_overrun(len(job.image), job.room_bytes)
    loader.enter_programming()
    _refuse_other_chip(loader.signature(), job.flash)
    if loader.block_bytes() < job.flash.page_bytes:
        raise Failure("the boot loader does not take a whole page at once, as matrixgen sends it")
    try:
        loader.erase()
        for address, page in job.pages():
            _write_page(loader, address, page)
            progress()
        loader.leave_programming()
    except Failure as failure:
        raise Failure(failure.text, *(failure.helps or (AGAIN,))) from failure
    _start(loader)


def _write_page(loader: Avr109, address: int, page: bytes) -> None:
    """Write a page, unless it is as erasing left it, and read it back."""
    if page.strip(bytes((ERASED,))):
        loader.write_block(address, page)
    read = loader.read_block(address, len(page))
    if read != page:
        wrong = next(place for place in range(len(page)) if read[place] != page[place])
        raise Failure(
            f"at 0x{address + wrong:04X} the flash reads 0x{read[wrong]:02X}, "
            f"not the 0x{page[wrong]:02X} that was written",
            AGAIN,
            "if that byte stays wrong, the chip is locked against reading, or worn out",
        )


def _refuse_other_chip(signature: bytes, flash: ChipFlash) -> None:
    if signature != flash.signature:
        raise Failure(
            f"the chip's signature is {signature.hex(' ').upper()}, but that of an "
            f"{flash.chip.upper()} is {flash.signature.hex(' ').upper()}: this is another board",
            "nothing was erased: name your controller in the file, and build again",
        )


def _start(loader: Avr109) -> None:
    """Start the program: it is whole by now, so that a line which breaks here is as good."""
    with suppress(Failure):
        loader.start_program()
