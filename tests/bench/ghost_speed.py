"""How fast the ghosts of keyboards without diodes are told: `python -m tests.bench.ghost_speed`.

A square of 144 keys and one of 1,024, with two modifiers in the last row: what `check` takes for
the file in one process, and what it takes for the same keys with a diode each.
"""

from __future__ import annotations

import time
from pathlib import Path

from matrixgen.jobs.examine import examine_text

SIDES = (12, 32)


def text_of(side: int, diodes: str) -> str:
    """Return a square keyboard on no controller."""
    names = [[f"R{row}C{column}" for column in range(side)] for row in range(side)]
    lines = ["plate", *(f"  line {' '.join(row)}" for row in names), "", "wiring"]
    lines += ["  drive columns, sense rows", f"  {diodes}"]
    lines += [f"  row r{n} {row[0]} to {row[-1]}" for n, row in enumerate(names)]
    lines += [f"  column c{n} {' '.join(row[n] for row in names)}" for n in range(side)]
    special = {names[-1][-1]: "Shift", names[-1][-2]: "Ctrl"}
    cells = (f"  {name} = {special.get(name, 'A')}" for row in names for name in row)
    return "\n".join([*lines, "", "layer base", *cells, ""])


def main() -> None:
    for side in SIDES:
        taken = {}
        last = side - 1
        for kind, diodes in (
            ("a diode at each key", "diodes 1N4148, band toward columns"),
            ("none at all", f"without diode R0C0 to R{last}C{last}"),
        ):
            text = text_of(side, diodes)
            begin = time.perf_counter()
            found = examine_text("bench.keys", text, Path()).findings
            taken[kind] = time.perf_counter() - begin
            print(f"{side * side:5} keys, {kind:<20} {taken[kind]:5.2f} s  {len(found)} findings")


if __name__ == "__main__":
    main()
