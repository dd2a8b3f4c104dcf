"""The manifest: what a build made and from what, for scripts (`templates/manifest.schema.json`)."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import PurePath
from typing import Any

from matrixgen import __version__
from matrixgen.emit.bench_view import PROTOCOL, BenchView
from matrixgen.emit.firmware_fields import FirmwareView
from matrixgen.emit.pin_table import PinTable
from matrixgen.model import Keyboard, Matrix, SourceText, matrix_of
from matrixgen.record import Record

SCHEMA_ID, BENCH_ID = "urn:matrixgen:manifest:1", "urn:matrixgen:bench:1"


class ImageSummary(Record, kw_only=True):
    """What the manifest says of the image; the file to load comes first. Sizes are in bytes."""

    files: tuple[str, ...]
    compiler: str
    flash_used: int
    flash_available: int
    ram_used: int
    ram_available: int


def manifest(
    source: SourceText,
    table: PinTable,
    view: FirmwareView,
    image: ImageSummary | None,
    files: Mapping[str, bytes],
) -> bytes:
    """Return `manifest.json` for a folder that holds `files`: no time, no path of this machine."""
    keyboard = table.keyboard
    about = {
        "source": {
            "file": PurePath(source.path).name,
            "sha256": source.sha256,
        },
        "keyboard": _keyboard(keyboard, view),
        "controller": {"name": table.profile.name, "chip": table.profile.chip},
        "matrix": _matrix(keyboard, matrix_of(keyboard)),
        "pins": {
            "lines": {row.name: row.pin.name for row in table.rows + table.columns},
            "spare": [pin.name for pin in table.spare],
        },
    }
    return manifest_of(SCHEMA_ID, about, image, files)


def bench_manifest(
    view: BenchView, image: ImageSummary | None, files: Mapping[str, bytes]
) -> bytes:
    """Return the same of a bench's image (`templates/bench.schema.json`)."""
    profile = view.profile
    looked_at = [line.pin for line in view.drives]
    about = {
        "bench": {"protocol": PROTOCOL, "boot_loader_by_1200_baud": view.loader_by_speed},
        "controller": {"name": profile.name, "chip": profile.chip},
        "pins": {
            "looked_at": looked_at,
            "left_alone": [pin.name for pin in profile.pins if pin.name not in looked_at],
        },
    }
    return manifest_of(BENCH_ID, about, image, files)


def manifest_of(
    schema: str, about: dict[str, Any], image: ImageSummary | None, files: Mapping[str, bytes]
) -> bytes:
    """Return a manifest of any schema: what is told by it alone stands in the middle."""
    record = {
        "schema": schema,
        "tool": {"name": "matrixgen", "version": __version__},
        **about,
        "image": _image(image),
        "files": {name: hashlib.sha256(files[name]).hexdigest() for name in sorted(files)},
    }
    return (json.dumps(record, indent=2, ensure_ascii=False) + "\n").encode()


def _keyboard(keyboard: Keyboard, view: FirmwareView) -> dict[str, Any]:
    identity = keyboard.identity
    return {
        "name": identity.product,
        "keys": len(keyboard.keys),
        "layers": [layer.name.text for layer in keyboard.layers],
        "usb": {
            "vendor_id": f"0x{view.vendor_id:04X}",
            "product_id": f"0x{view.product_id:04X}",
            "test_ids": identity.vendor_id is None,
        },
    }


def _matrix(keyboard: Keyboard, matrix: Matrix) -> dict[str, Any]:
    drives_rows = keyboard.wiring.drive == "row"
    keys = {}
    for contact in matrix.contacts:
        drive, sense = matrix.drives[contact.drive], matrix.senses[contact.sense]
        row, column = (drive, sense) if drives_rows else (sense, drive)
        keys[contact.key] = {"row": row.name.text, "column": column.name.text}
    return {
        "rows": [line.name.text for line in keyboard.wiring.of_axis("row")],
        "columns": [line.name.text for line in keyboard.wiring.of_axis("column")],
        "driven": f"{keyboard.wiring.drive}s",
        "keys": keys,
    }


def _image(image: ImageSummary | None) -> dict[str, Any] | None:
    """Return the image; None where no compiler was at hand."""
    if image is None:
        return None
    return {
        "files": list(image.files),
        "compiler": image.compiler,
        "flash": {"used": image.flash_used, "available": image.flash_available},
        "ram": {"used": image.ram_used, "available": image.ram_available},
    }
