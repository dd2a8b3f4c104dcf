"""The manifest of a bench's image (`templates/bench.schema.json`)."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.emit.bench_view import PROTOCOL, BenchView
from matrixgen.emit.manifest import ImageSummary, manifest_of

SCHEMA_ID = "urn:matrixgen:bench:1"


def bench_manifest(
    view: BenchView, image: ImageSummary | None, files: Mapping[str, bytes]
) -> bytes:
    """Return `manifest.json` for a folder that holds `files`: no time, no path of this machine."""
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
    return manifest_of(SCHEMA_ID, about, image, files)
