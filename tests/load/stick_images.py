"""Images made up for a test."""

from __future__ import annotations

import io
import random

from intelhex import IntelHex


def image_of(size: int) -> bytes:
    """Bytes of an image, with a page of what erased flash reads in the middle, and an odd end."""
    made = bytearray(random.Random(size).randbytes(size))
    middle = size // 2 // 256 * 256
    if middle:
        made[middle : middle + 256] = b"\xff" * len(made[middle : middle + 256])
    return bytes(made)


def hex_of(image: bytes) -> str:
    made, out = IntelHex(), io.StringIO()
    made.frombytes(image)
    made.write_hex_file(out)
    return out.getvalue()
