"""What a build says of itself."""

from __future__ import annotations

from pathlib import PurePath

from matrixgen.jobs.build import Built
from matrixgen.model.prose import counted

NO_COMPILER = 'no compiler was found, so there is no image: `pip install "matrixgen[compiler]"`'
TEST_IDS = (
    "the file names no USB ids, so it gets 1209:0001, which is for private testing only; "
    "`usb VENDOR:PRODUCT` in the `keyboard` block names your own"
)


def told(built: Built, out: PurePath) -> list[str]:
    """Return a line for each thing that a build has written to `out`."""
    lines = []
    if image := built.image:
        flash = f"{image.flash_used:,} of {image.flash_available:,} bytes of flash"
        ram = f"{image.ram_used:,} of {image.ram_available:,} bytes of RAM"
        lines.append(f"{out / image.files[0]}: {flash}, {ram} ({image.compiler})")
    wires = len(built.table.rows) + len(built.table.columns)
    spare = counted(len(built.table.spare), "pin")
    lines.append(f"{out / 'pins.md'}: {counted(wires, 'wire')}, {spare} to spare")
    lines.append(f"{out / 'firmware'}: the C sources, and a Makefile")
    return lines


def notes(built: Built, *, compiler_was_wanted: bool) -> list[str]:
    """Return what the user should know besides."""
    found = []
    if built.image is None and compiler_was_wanted:
        found.append(f"note: {NO_COMPILER}")
    if built.table.keyboard.identity.vendor_id is None:
        found.append(f"note: {TEST_IDS}")
    return found
