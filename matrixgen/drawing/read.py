"""A file to a drawing, by what the file is rather than by what it is called."""

from __future__ import annotations

from pathlib import Path

from matrixgen.drawing.svg import drawing_of_svg
from matrixgen.drawing.traces import Drawing
from matrixgen.reach import read_argument
from matrixgen.reading import Refused

MOST_BYTES = 16_000_000
"""A drawing of 50,000 lines has about 6 MB (measured, DXF of R2010)."""

_DXF_BINARY = b"AutoCAD Binary DXF"
"""What a binary DXF begins with (DXF reference, from memory)."""

_ANOTHER = {b"%PDF": "a PDF", b"\x1f\x8b": "a compressed file", b"AC10": "a DWG drawing"}
"""What people also have, by its first bytes (from memory): the help names what to save instead."""


def read_drawing(path: Path) -> Drawing:
    """Return the drawing in a file; raises `OSError`, mostly `Refused`, where there is none."""
    data = read_argument(path, MOST_BYTES)
    for start, what in _ANOTHER.items():
        if data.startswith(start):
            raise Refused(f"it is {what}", "save the drawing as DXF or plain SVG")
    if data.startswith(_DXF_BINARY):
        raise Refused("it is a binary DXF drawing", "save it as ASCII DXF")
    if _is_xml(data):
        return drawing_of_svg(data)
    from matrixgen.drawing.dxf import drawing_of_dxf  # its package is an extra

    return drawing_of_dxf(data)


def _is_xml(data: bytes) -> bool:
    start = data[:200].lstrip(b"\xef\xbb\xbf\xff\xfe \t\r\n\x00")
    return start.startswith(b"<")
