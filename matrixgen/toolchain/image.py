"""What a linked image holds, and whether it fits its controller."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Literal

from matrixgen.families import Family
from matrixgen.record import Record

if TYPE_CHECKING:
    from elftools.elf.elffile import ELFFile

    from matrixgen.boards import Profile

Memory = Literal["flash", "RAM"]


class Image(Record):
    """A linked firmware. `flash` has its bytes, from the start of the chip's flash.

    Sizes are in bytes. `flash_used` is what the image occupies, the initial values of variables
    included; `ram_used` is what variables occupy, the stack not included.
    """

    family: Family
    elf: bytes
    flash: bytes
    ram_used: int

    @property
    def flash_used(self) -> int:
        """How many bytes of flash the image takes, from its start."""
        return len(self.flash)


class Budget(Record):
    """What a controller offers, in bytes: flash less the boot loader, RAM less the stack."""

    flash: int
    ram: int

    @staticmethod
    def of(family: Family, profile: Profile) -> Budget:
        """Return what a controller has for a firmware of its family."""
        return Budget(profile.room_bytes, profile.ram_bytes - family.stack_bytes)


class Overrun(Record):
    """An image that needs more of a memory than there is, in bytes."""

    memory: Memory
    used: int
    available: int


def read_image(elf: bytes, family: Family) -> Image:
    """Return the image in an ELF file that the family's linker script has laid out.

    Raises `ValueError` where the file puts bytes anywhere else than in one piece of flash, from
    its start.
    """
    from elftools.elf.elffile import ELFFile  # only here: a page's engine needs no image

    file = ELFFile(io.BytesIO(elf))
    flash = bytearray()
    for segment in sorted(file.iter_segments("PT_LOAD"), key=lambda part: int(part["p_paddr"])):
        data = segment.data()
        if not data:
            continue
        address = int(segment["p_paddr"])
        start = address - family.flash_start
        if start < len(flash) or address >= family.ram_start:
            raise ValueError(f"the image has {len(data)} bytes at 0x{address:X}, outside the flash")
        flash += b"\xff" * (start - len(flash)) + data
    return Image(family, elf, bytes(flash), sum(_sizes(file, ".data", ".bss", ".noinit")))


def _sizes(file: ELFFile, *names: str) -> list[int]:
    sections = (file.get_section_by_name(name) for name in names)
    return [int(section["sh_size"]) for section in sections if section is not None]


def to_hex(image: Image) -> str:
    """Return the image as Intel HEX, 16 bytes a record, lines ending in a line feed."""
    from intelhex import IntelHex

    made = IntelHex()
    made.frombytes(image.flash, offset=image.family.flash_start)
    out = io.StringIO()
    made.write_hex_file(out, eolstyle="native", byte_count=16)
    return out.getvalue().replace("\r\n", "\n")


def overruns(image: Image, budget: Budget) -> tuple[Overrun, ...]:
    """Return the memories that the image overruns; none where it fits."""
    needs = (
        Overrun("flash", image.flash_used, budget.flash),
        Overrun("RAM", image.ram_used, budget.ram),
    )
    return tuple(need for need in needs if need.used > need.available)
