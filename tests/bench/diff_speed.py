"""How long `matrixgen diff` takes: `python -m tests.bench.diff_speed`.

Whole processes on two files of 100 keys that differ in three cells, a pin and a colour, beside
`check` of one of them, taken in turn in the same run.
"""

from __future__ import annotations

import tempfile
from functools import partial
from pathlib import Path

from tests.bench.check_speed import PINS
from tests.bench.processes import medians, print_beside, process_seconds
from tests.bench.synthetic import keyboard_text

ROUNDS, WARMING_UP = 21, 2


def main() -> None:
    with tempfile.TemporaryDirectory() as name:
        old, new = Path(name) / "old.keys", Path(name) / "new.keys"
        pins = [*PINS, "PE6", "PF0", "PF1"][:20]
        text = keyboard_text(10, 10, pins)
        old.write_text(text, encoding="utf-8")
        other = text.replace(f"on {pins[3]} ", "on PF4 wire red ", 1)
        new.write_text(other.replace("= F1", "= F9", 3), encoding="utf-8")
        commands = {
            "check": ("-m", "matrixgen", "check", str(old)),
            "diff": ("-m", "matrixgen", "diff", str(old), str(new)),
        }
        measure = partial(process_seconds, check=False)
        middles = medians(commands, measure, ROUNDS, WARMING_UP)
    print(f"files of 100 keys, cold processes, median of {ROUNDS}:")
    print_beside("check", middles)


if __name__ == "__main__":
    main()
