"""The manifest of a bench's image (`templates/bench.schema.json`)."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping

from matrixgen import __version__
from matrixgen.emit.bench_view import PROTOCOL, BenchView
from matrixgen.emit.manifest import ImageSummary, image_record

SCHEMA_ID = "urn:matrixgen:bench:1"


def bench_manifest(
    view: BenchView, image: ImageSummary | None, files: Mapping[str, bytes]
) -> bytes:
    """Return `manifest.json` for a folder that holds `files`: no time, no path of this machine."""
    profile = view.profile
    looked_at = [line.pin for line in view.drives]
    record = {
        "schema": SCHEMA_ID,
        "tool": {"name": "matrixgen", "version": __version__},
        "bench": {"protocol": PROTOCOL, "boot_loader_by_1200_baud": view.loader_by_speed},
        "controller": {"name": profile.name, "chip": profile.chip},
        "pins": {
            "looked_at": looked_at,
            "left_alone": [pin.name for pin in profile.pins if pin.name not in looked_at],
        },
        "image": image_record(image),
        "files": {name: hashlib.sha256(files[name]).hexdigest() for name in sorted(files)},
    }
    return (json.dumps(record, indent=2, ensure_ascii=False) + "\n").encode()
