"""Each example's plate through Debian's slicer: `python -m tests.plate.slicer`.

PrusaSlicer reads each solid, says whether it is closed without repair and in how many parts, and
slices the test piece and a whole plate. `tests/run --long slicer` installs it. Nothing was printed.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from itertools import product
from pathlib import Path

from matrixgen.jobs.plate import PlateOptions, division_for, plate_file, test_piece
from matrixgen.model.prose import counted
from matrixgen.plate.division import Division
from tests.plate.plates import NAMES, keyboard_of

SLICER = "prusa-slicer"
BEDS = (180.0, 180.0), (160.0, 90.0)
"""Beds of printers: on the smaller one plates are divided across, too."""

REPAIRED = re.compile(r"open_edges|degenerate|repaired|reversed|backwards", re.IGNORECASE)


def asked(*words: str) -> str:
    """Return what the slicer prints."""
    ran = subprocess.run([SLICER, *words], capture_output=True, text=True, check=False)
    return ran.stdout + ran.stderr


def wrong_in(path: Path, parts: int) -> list[str]:
    """Return what the slicer says against a solid."""
    said = asked("--info", str(path))
    wrong = []
    if "manifold = no" in said or REPAIRED.search(said):
        wrong.append("not closed without repair")
    if sum(map(int, re.findall(r"number_of_parts =\s+(\d+)", said))) != parts:
        wrong.append(f"not {parts} parts")
    return wrong


def main() -> int:
    bad = 0
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for example, bed in product(NAMES, BEDS):
            keyboard = keyboard_of(example)
            division = division_for(keyboard, bed)
            assert isinstance(division, Division)
            for kind in (".stl", ".3mf"):
                path = folder / f"{example}{kind}"
                path.write_bytes(plate_file(keyboard, kind, PlateOptions(division=division)))
                wrong = wrong_in(path, sum(division.strips))
                bad += bool(wrong)
                said = ", ".join(wrong) or f"closed, {counted(sum(division.strips), 'part')}"
                print(f"{path.name}: {said}", flush=True)
        for label, keyboard in (
            ("test piece", test_piece(keyboard_of("heron-12"))),
            ("heron-12", keyboard_of("heron-12")),
        ):
            path, made = folder / "sliced.3mf", folder / "sliced.gcode"
            path.write_bytes(plate_file(keyboard, ".3mf", PlateOptions()))
            asked("--export-gcode", "--output", str(made), str(path))
            layers = made.read_text().count(";LAYER_CHANGE") if made.exists() else 0
            bad += not layers
            print(f"{label}: sliced in {layers} layers", flush=True)
            made.unlink(missing_ok=True)
    print(f"the slicer: {bad} complaints")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
