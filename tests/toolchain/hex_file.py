"""Intel HEX files, read back with the `intelhex` package."""

from __future__ import annotations

import io

from intelhex import IntelHex


def from_hex(text: str) -> bytes:
    """The bytes of a file from its lowest address, gaps filled with 0xFF."""
    read = IntelHex(io.StringIO(text))
    return bytes(read.tobinarray()) if read.addresses() else b""
