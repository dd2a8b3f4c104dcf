"""An image as UF2: 512-byte blocks that a boot ROM's drive takes in any order.

Source: the published UF2 specification (facts of layout and flags), and the RP2040 boot ROM's own
rules, which are narrower: 256 bytes of payload a block, at addresses of whole 256 bytes, with the
chip's family ID.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator

from matrixgen.toolchain.image import Image

MAGIC_START, MAGIC_SECOND, MAGIC_END = 0x0A324655, 0x9E5D5157, 0x0AB16F30
FAMILY_ID_PRESENT = 0x2000
PAYLOAD_BYTES = 256
DATA_BYTES = 476

_HEADER = struct.Struct("<8I")
_END = struct.Struct("<I")


def to_uf2(image: Image) -> bytes:
    """Return the image as UF2, its last block filled up with 0xFF, what erased flash reads.

    Raises `ValueError` for a family that has no ID: its chips don't load UF2.
    """
    if image.family.uf2_id is None:
        raise ValueError(f"the family {image.family.name} has no number in UF2 files")
    pieces = list(_pieces(image.flash))
    return b"".join(_block(image, number, pieces) for number in range(len(pieces)))


def _pieces(flash: bytes) -> Iterator[bytes]:
    for start in range(0, len(flash), PAYLOAD_BYTES):
        yield flash[start : start + PAYLOAD_BYTES].ljust(PAYLOAD_BYTES, b"\xff")


def _block(image: Image, number: int, pieces: list[bytes]) -> bytes:
    header = _HEADER.pack(
        MAGIC_START,
        MAGIC_SECOND,
        FAMILY_ID_PRESENT,
        image.family.flash_start + number * PAYLOAD_BYTES,
        PAYLOAD_BYTES,
        number,
        len(pieces),
        image.family.uf2_id,
    )
    return header + pieces[number].ljust(DATA_BYTES, b"\0") + _END.pack(MAGIC_END)
