"""A UF2 file before it goes to a drive: whether the boot ROM would take all of it.

Source: the published UF2 specification, and the narrower rules of the RP2040's boot ROM
(pico-bootrom-rp2040, virtual_disk.c): 256 bytes a block at whole 256, the family's number in each,
and one number of blocks in all. A block that breaks a rule is passed over by the ROM without a
word, which then waits for ever.
"""

from __future__ import annotations

import struct
from collections.abc import Sequence

from matrixgen.failure import Failure
from matrixgen.families import Family
from matrixgen.record import Record
from matrixgen.toolchain.uf2 import (
    FAMILY_ID_PRESENT,
    MAGIC_END,
    MAGIC_SECOND,
    MAGIC_START,
    PAYLOAD_BYTES,
)

BLOCK_BYTES = 512
NOT_MAIN_FLASH = 0x0001
_HEADER = struct.Struct("<8I")
_END = struct.Struct("<I")


class Block(Record, kw_only=True):
    """The header of a block; `family` is None where it names none. Addresses are in bytes."""

    address: int
    payload_bytes: int
    number: int
    count: int
    family: int | None


def refuse_bad_uf2(data: bytes, family: Family, flash_bytes: int) -> None:
    """Raise `Failure` for a file that the boot ROM of `family` would not take as a whole."""
    blocks = uf2_blocks(data)
    for block in blocks:
        if block.family != family.uf2_id:
            raise Failure(
                "the image is for another chip: its UF2 family is "
                f"{'not given' if block.family is None else f'0x{block.family:08X}'}, "
                f"but that of the {family.name.upper()} is 0x{family.uf2_id:08X}"
            )
        place = block.address - family.flash_start
        if block.payload_bytes != PAYLOAD_BYTES or place % PAYLOAD_BYTES or place < 0:
            raise Failure(f"block {block.number} is not one that the boot ROM takes")
        if place + PAYLOAD_BYTES > flash_bytes:
            raise Failure(
                f"the image reaches to {place + PAYLOAD_BYTES:,} bytes, "
                f"but the flash has {flash_bytes:,}"
            )
    _refuse_gaps(blocks)


def _refuse_gaps(blocks: Sequence[Block]) -> None:
    numbers = sorted(block.number for block in blocks)
    if any(block.count != len(blocks) for block in blocks) or numbers != list(range(len(blocks))):
        raise Failure(
            "the image is not complete: blocks are missing or duplicate", "build or copy it again"
        )


def uf2_blocks(data: bytes) -> tuple[Block, ...]:
    """Return the blocks of a file for main flash; `Failure` where it is no UF2 file."""
    if not data or len(data) % BLOCK_BYTES:
        raise Failure("it is not a UF2 file, or only a part of one", "build or copy it again")
    starts = range(0, len(data), BLOCK_BYTES)
    found = (_block(data[start : start + BLOCK_BYTES]) for start in starts)
    return tuple(block for block in found if block is not None)


def _block(data: bytes) -> Block | None:
    start, second, flags, address, size, number, count, last = _HEADER.unpack_from(data)
    if (start, second, *_END.unpack(data[-4:])) != (MAGIC_START, MAGIC_SECOND, MAGIC_END):
        raise Failure("it is not a UF2 file, or only a part of one", "build or copy it again")
    if flags & NOT_MAIN_FLASH:
        return None
    return Block(
        address=address,
        payload_bytes=size,
        number=number,
        count=count,
        family=last if flags & FAMILY_ID_PRESENT else None,
    )
