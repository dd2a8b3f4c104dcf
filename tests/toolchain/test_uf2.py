"""UF2 files, read by two readers that are not ours: uf2utils and rp2040py.

Layout and flags: the published UF2 specification. The narrower rules of the RP2040's boot ROM
(payload of 256 bytes at whole multiples of 256, family ID, one block count) are its source's.
"""

from __future__ import annotations

import struct
from pathlib import Path

import pytest
from rp2040py.device.load_flash import decode_block
from uf2utils import UF2File

from matrixgen.families import RP2040, CompilerKind
from matrixgen.toolchain import Image, to_uf2
from tests.toolchain.trees import COMPILERS, image

BLOCK = 512
FLASH = 0x10000000


def blocks(data: bytes) -> list[bytes]:
    assert len(data) % BLOCK == 0
    return [data[start : start + BLOCK] for start in range(0, len(data), BLOCK)]


@pytest.mark.parametrize("kind", COMPILERS)
def test_uf2utils_reads_the_image_s_bytes_at_its_addresses(
    kind: CompilerKind, tmp_path: Path
) -> None:
    made = image("rp2040", kind)
    path = tmp_path / "image.uf2"
    path.write_bytes(to_uf2(made))
    read = UF2File(str(path))
    assert read.family.name == "RP2040"
    flash = bytearray()
    for number in range(read.num_blocks):
        block = read[number]
        assert block.header.address == FLASH + len(flash)
        assert (block.header.block_number, block.header.total_blocks) == (number, read.num_blocks)
        flash += block.payload[: block.header.payload_size]
    assert flash[: made.flash_used] == made.flash
    assert set(flash[made.flash_used :]) <= {0xFF}
    assert len(flash) - made.flash_used < 256


@pytest.mark.parametrize("kind", COMPILERS)
def test_rp2040py_reads_the_same(kind: CompilerKind) -> None:
    made = image("rp2040", kind)
    flash = bytearray()
    for block in map(decode_block, blocks(to_uf2(made))):
        assert block.flash_address == FLASH + len(flash)
        flash += block.payload
    assert flash[: made.flash_used] == made.flash


@pytest.mark.parametrize("length", [1, 255, 256, 257, 5000])
def test_every_block_keeps_the_boot_rom_s_rules(length: int) -> None:
    made = Image(RP2040, b"", bytes(range(256)) * 20, 0)
    short = Image(RP2040, b"", made.flash[:length], 0)
    found = blocks(to_uf2(short))
    assert len(found) == -(-length // 256)
    for number, block in enumerate(found):
        fields = struct.unpack_from("<8I", block)
        assert fields[:3] == (0x0A324655, 0x9E5D5157, 0x2000), "magic numbers; family ID present"
        assert fields[3] == FLASH + 256 * number
        assert fields[4:] == (256, number, len(found), 0xE48BFF56)
        assert block[32 + 256 : 508] == bytes(476 - 256)
        assert struct.unpack_from("<I", block, 508) == (0x0AB16F30,)
    assert found[-1][32 : 32 + 256].rstrip(b"\xff") == short.flash[256 * (len(found) - 1) :].rstrip(
        b"\xff"
    )


def test_a_family_without_uf2_has_none() -> None:
    with pytest.raises(ValueError, match="avr has no number in UF2 files"):
        to_uf2(image("atmega32u4", "gcc"))
