"""An image that was built before, from its file: what is in it, and what it was built for."""

from __future__ import annotations

import hashlib
import io
import json
from pathlib import Path

from intelhex import IntelHex, IntelHexError

from matrixgen.failure import Failure
from matrixgen.load.flashing import refuse_overrun
from matrixgen.model.reason import reason_of
from matrixgen.reading import read_any, read_regular

MANIFEST = "manifest.json"

MOST_BYTES = 64_000_000
"""The largest image: a UF2 file has 512 bytes for each 256 of flash, and 16 MB can be addressed."""

MOST_MANIFEST_BYTES = 1_000_000

END = ":00000001FF"
"""The record that ends an Intel HEX file (its specification of 1988, "End of File Record")."""


def is_image(path: str) -> bool:
    """Whether a path is that of an image, by its ending, and not that of a .keys file."""
    return path.lower().endswith((".hex", ".uf2"))


def read_bytes(path: Path) -> bytes:
    """Return what is in a file; `Failure` where it cannot be read."""
    try:
        return read_any(path, MOST_BYTES)
    except OSError as error:
        raise Failure(f"`{path}` cannot be read: {reason_of(error)}") from error


def controller_of(path: Path, data: bytes) -> str | None:
    """Return the controller that an image was built for, where the manifest beside it tells.

    A manifest counts only if it has just this image, by its SHA-256.
    """
    try:
        manifest = json.loads(read_regular(path.parent / MANIFEST, MOST_MANIFEST_BYTES))
        known = manifest["files"].get(path.name) == hashlib.sha256(data).hexdigest()
        return str(manifest["controller"]["name"]) if known else None
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None


def flash_of_hex(data: bytes, room: int) -> bytes:
    """Return the flash of an Intel HEX file from address 0, gaps as erased flash reads.

    Raises `Failure` where it is none, is cut off, reaches past `room` bytes, or has nothing at
    the start.
    """
    text = _text_of_hex(data)
    try:
        read = IntelHex(io.StringIO(text))
    except IntelHexError as error:
        raise Failure(f"it is not an Intel HEX file: {reason_of(error)}") from error
    _refuse_cut_off(text)
    first, last = read.minaddr(), read.maxaddr()
    if first is None or last is None:
        raise Failure("the image is empty")
    refuse_overrun(last + 1, room)  # before the gaps are filled: they may be gigabytes
    if first != 0:
        raise Failure(f"the image begins at 0x{first:X}, but firmware for this chip begins at 0")
    return bytes(read.tobinarray(start=0, end=last))


def _text_of_hex(data: bytes) -> str:
    try:
        return data.decode("ascii")
    except UnicodeDecodeError as error:
        place = f"byte {error.start + 1:,} is 0x{data[error.start]:02X}"
        raise Failure(
            f"it is not an Intel HEX file: {place}, which is not a character of ASCII"
        ) from error


def _refuse_cut_off(text: str) -> None:
    """Refuse a file without its end record, or with more after it."""
    lines = [line.strip().upper() for line in text.splitlines() if line.strip()]
    if not lines:
        raise Failure("the image is empty")
    if END not in lines:
        raise Failure(
            f"the image is cut off: its last line is not the end record `{END}`",
            "build or copy it again",
        )
    if lines[-1] != END:
        raise Failure(f"the image goes on after its end record `{END}`", "build it again")
