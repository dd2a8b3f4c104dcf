"""How long `matrixgen fit` takes, and how much wire it saves: `python -m tests.bench.fit_speed`.

Plates of 12 to 200 keys, staggered as on a usual keyboard. The reference is the rows as drawn with
columns from left to right, laid out in the same run; times are beside an empty process.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from matrixgen.fit.beginnings import as_drawn
from matrixgen.fit.search import lay_out
from matrixgen.fit.shapes import Fitting
from matrixgen.jobs.examine import examine
from tests.bench.processes import process_seconds
from tests.examples.shipped import FOLDER, NAMES

SIZES = ((3, 4), (4, 12), (5, 14), (6, 17), (8, 25))


def plate_text(rows: int, columns: int) -> str:
    lines = (
        f"  line ~{row % 4 * 0.25 + 0.25:g} {' '.join(f'k{row}-{n}' for n in range(columns))}\n"
        for row in range(rows)
    )
    return "plate\n" + "".join(lines)


def tables(folder: Path) -> None:
    empty = min(process_seconds("-c", "pass") for _ in range(5))
    print(f"whole processes, the tables (an empty process takes {empty * 1e3:.0f} ms):")
    for rows, columns in SIZES:
        path = folder / f"{rows * columns}.keys"
        path.write_text(plate_text(rows, columns), encoding="utf-8")
        every = process_seconds("-m", "matrixgen", "fit", str(path))
        one = process_seconds("-m", "matrixgen", "fit", str(path), f"--rows={rows}")
        print(f"  {rows * columns:>4} keys  {every:6.2f} s all matrices   {one:6.2f} s one wiring")


def wire() -> None:
    print("wire from key to key, millimetres: the rows as drawn, columns from left to right; ours")
    for name in NAMES:
        design = examine(str(FOLDER / name / f"{name}.keys")).design
        assert design
        fitting = Fitting(design.keyboard)
        plain = as_drawn(fitting.plan, *fitting.drawn_size, fitting.drawn)
        ours = lay_out(fitting.plan, *fitting.drawn_size, drawn=fitting.drawn)
        assert plain and ours
        share = ours.run_mm / plain.run_mm
        print(f"  {name:<16} {plain.run_mm:7.0f} {ours.run_mm:7.0f}   {share:5.0%}")


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        tables(Path(folder))
    wire()


if __name__ == "__main__":
    main()
