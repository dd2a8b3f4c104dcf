"""How much of a processor `matrixgen fit` takes, and how much wire and how many jumpers it saves.

`python -m tests.bench.fit_speed`. Plates of 12 to 200 keys, staggered as on a usual keyboard, and
the largest example. CPU seconds of whole processes, imports included, beside an empty one; the
reference for wire is the rows as drawn with columns from left to right, laid out in the same run.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from matrixgen.fit.beginnings import as_drawn
from matrixgen.fit.search import lay_out
from matrixgen.fit.shapes import Fitting
from tests.bench.processes import process_cpu_seconds
from tests.examples.shipped import FOLDER, NAMES, example

SIZES = ((3, 4), (4, 12), (5, 14), (6, 17), (8, 25))
LARGEST = "goosander-104"


def plate_text(rows: int, columns: int) -> str:
    lines = (
        f"  line ~{row % 4 * 0.25 + 0.25:g} {' '.join(f'k{row}-{n}' for n in range(columns))}\n"
        for row in range(rows)
    )
    return "plate\n" + "".join(lines)


def tables(folder: Path) -> None:
    empty = min(process_cpu_seconds("-c", "pass") for _ in range(5))
    print(f"CPU seconds of whole processes, the tables (an empty process takes {empty:.2f} s):")
    for rows, columns in SIZES:
        path = folder / f"{rows * columns}.keys"
        path.write_text(plate_text(rows, columns), encoding="utf-8")
        _table(f"{rows * columns} keys", path, rows)
    _table(LARGEST, FOLDER / LARGEST / f"{LARGEST}.keys", 6)


def _table(name: str, path: Path, rows: int) -> None:
    every = process_cpu_seconds("-m", "matrixgen", "fit", str(path))
    one = process_cpu_seconds("-m", "matrixgen", "fit", str(path), f"--rows={rows}")
    print(f"  {name:<14} {every:6.2f} s all matrices   {one:6.2f} s one wiring")


def wire() -> None:
    print("wire from key to key in millimetres, and jumpers: as drawn, from left to right; ours")
    for name in NAMES:
        fitting = Fitting(example(name).keyboard)
        plain = as_drawn(fitting.plan, *fitting.drawn_size, fitting.drawn)
        ours = lay_out(fitting.plan, *fitting.drawn_size, drawn=fitting.drawn)
        assert plain and ours
        share = ours.run_mm / plain.run_mm
        told = (f"{one.run_mm:7.0f} mm {one.jumpers:3}" for one in (plain, ours))
        print(f"  {name:<16} {'   '.join(told)}   {share:5.0%}")


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        tables(Path(folder))
    wire()


if __name__ == "__main__":
    main()
