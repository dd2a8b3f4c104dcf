"""Measure what images take, and write it: `python -m tests.sizes [IMAGES]`.

By each compiler, IMAGES random keyboards are built (144 if not said) for the AVR chips, and the
sizes of what they use fitted to them by least squares, into `templates/image_sizes.json`. Do so
after a change of the firmware that the tests of this folder fail for: some eight minutes on two
idle cores.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Sequence
from itertools import islice
from os import cpu_count
from pathlib import Path
from typing import Any

import numpy as np

from matrixgen.emit.firmware_fields import FirmwareView
from matrixgen.emit.image_size import code_uses, ram_uses, table_bytes
from matrixgen.families import AVR, CompilerKind
from matrixgen.resources import resource
from matrixgen.toolchain import find_compiler
from tests.examples.shipped import COMPILERS
from tests.sizes.measure import CONTROLLERS, Sized, all_sized, random_keyboards

IMAGES = 144
HELD_BACK = 0.03
"""How much a use's size is held back toward none: a use that few images have stays in bounds."""
CORE = "any"
"""The use that all have, which is not held back."""

Uses = Callable[[FirmwareView], dict[str, float]]


class Fit:
    """The bytes of each use, and by how many bytes each image is off where it is left out."""

    def __init__(self, sizes: dict[str, float], off: np.ndarray[Any, Any]) -> None:
        self.sizes = sizes
        self.off = off

    @property
    def most_off(self) -> int:
        return round(float(self.off.max()))


def fitted(images: Sequence[Sized], uses: Uses, bytes_of: Callable[[Sized], int]) -> Fit:
    """Return the bytes of each use, and the most that an image left out of the fit is off by."""
    rows = [uses(one.view) for one in images]
    names = sorted({name for row in rows for name, value in row.items() if value})
    table = np.array([[row.get(name, 0.0) for name in names] for row in rows])
    wanted = np.array([float(bytes_of(one)) for one in images])
    held = np.diag([0.0 if name == CORE else HELD_BACK for name in names])
    solved = np.linalg.inv(table.T @ table + held) @ table.T
    sizes = solved @ wanted
    influence = np.einsum("ij,ji->i", table, solved)  # of each image on what is foretold of it
    off = np.abs(wanted - table @ sizes) / np.maximum(1 - influence, 1e-6)
    return Fit({name: round(float(size), 1) for name, size in zip(names, sizes, strict=True)}, off)


def built_by(kind: CompilerKind, images: int) -> list[Sized]:
    """Build random keyboards with a compiler."""
    keyboards = list(islice(random_keyboards(CONTROLLERS, "fit"), images))
    return all_sized(keyboards, kind, cpu_count() or 1)


def row(kind: CompilerKind, built: Sequence[Sized]) -> dict[str, Any]:
    """Return the row of the file for a compiler and the images that it built."""
    flash = fitted(built, code_uses, lambda one: one.flash - table_bytes(one.view))
    ram = fitted(built, ram_uses, lambda one: one.ram)
    compiler = find_compiler(kind, AVR)
    assert compiler is not None
    print(
        f"{compiler.title}: {len(built)} images; one that is left out of the fit is off by at most "
        f"{flash.most_off} bytes of flash, {ram.most_off} of RAM",
        flush=True,
    )
    return {
        "chips": list(AVR.chips),
        "compiler": kind,
        "title": compiler.title,
        "images": len(built),
        "flash": flash.sizes,
        "ram": {name: size for name, size in ram.sizes.items() if size},
        "flash_off": flash.most_off,
        "ram_off": ram.most_off,
    }


def main(arguments: Sequence[str]) -> None:
    images = int(arguments[0]) if arguments else IMAGES
    rows = [row(kind, built_by(kind, images)) for kind in COMPILERS]
    told = {"comment": "Written by `python -m tests.sizes`.", "measured": rows}
    place: Path = resource("templates") / "image_sizes.json"
    place.write_text(json.dumps(told, indent=1, sort_keys=False) + "\n", "utf-8")
    print(f"written: {place.name}")


if __name__ == "__main__":
    main(sys.argv[1:])
