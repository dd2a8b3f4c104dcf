"""What a linked image holds, and whether it fits its controller."""

from __future__ import annotations

import io
from dataclasses import dataclass

from elftools.elf.elffile import ELFFile
from intelhex import IntelHex, IntelHexError

STACK_RESERVE_BYTES = 96
"""RAM kept for the stack: more than twice its deepest use on the emulated chip."""

DATA_SPACE = 0x800000
"""Where the linkers put an AVR's data space, so that it is not mistaken for flash."""


@dataclass(frozen=True, slots=True)
class Image:
    """A linked firmware. `flash` has its bytes by address; sizes are in bytes.

    `flash_used` is what the image occupies, the initial values of variables included; `ram_used`
    is what variables occupy, the stack not included.
    """

    elf: bytes
    flash: bytes
    ram_used: int

    @property
    def flash_used(self) -> int:
        """How many bytes of flash the image takes, from address 0."""
        return len(self.flash)


@dataclass(frozen=True, slots=True)
class Budget:
    """What a controller offers, in bytes: flash less the boot loader, RAM less the stack."""

    flash: int
    ram: int

    @staticmethod
    def of(flash: int, boot_loader: int, ram: int) -> Budget:
        """Return the budget of a chip with so much flash, boot loader and RAM, in bytes."""
        return Budget(flash - boot_loader, ram - STACK_RESERVE_BYTES)


@dataclass(frozen=True, slots=True)
class Overrun:
    """An image that needs more of a memory than there is, in bytes."""

    memory: str
    used: int
    available: int


def read_image(elf: bytes) -> Image:
    """Return the image in an ELF file that our linker script has laid out.

    Raises `ValueError` where the file puts bytes anywhere else than in one piece of flash from 0.
    """
    file = ELFFile(io.BytesIO(elf))
    flash = bytearray()
    for segment in sorted(file.iter_segments("PT_LOAD"), key=lambda part: int(part["p_paddr"])):
        data = segment.data()
        if not data:
            continue
        start = int(segment["p_paddr"])
        if start < len(flash) or start >= DATA_SPACE:
            raise ValueError(f"the image has {len(data)} bytes at 0x{start:X}, outside the flash")
        flash += b"\xff" * (start - len(flash)) + data
    return Image(elf, bytes(flash), sum(_sizes(file, ".data", ".bss", ".noinit")))


def _sizes(file: ELFFile, *names: str) -> list[int]:
    sections = (file.get_section_by_name(name) for name in names)
    return [int(section["sh_size"]) for section in sections if section is not None]


def to_hex(image: Image) -> str:
    """Return the image as Intel HEX, 16 bytes a record, lines ending in a line feed."""
    made = IntelHex()
    made.frombytes(image.flash)
    out = io.StringIO()
    made.write_hex_file(out, eolstyle="native", byte_count=16)
    return out.getvalue().replace("\r\n", "\n")


def from_hex(text: str) -> bytes:
    """Return the bytes of an Intel HEX file from address 0, gaps filled with 0xFF.

    Raises `ValueError` where it is no Intel HEX file or a checksum is wrong.
    """
    try:
        read = IntelHex(io.StringIO(text))
    except IntelHexError as error:
        raise ValueError(str(error)) from error
    addresses = read.addresses()
    return bytes(read.tobinarray(start=0, end=addresses[-1])) if addresses else b""


def overruns(image: Image, budget: Budget) -> tuple[Overrun, ...]:
    """Return the memories that the image overruns; none where it fits."""
    needs = (
        Overrun("flash", image.flash_used, budget.flash),
        Overrun("RAM", image.ram_used, budget.ram),
    )
    return tuple(need for need in needs if need.used > need.available)
