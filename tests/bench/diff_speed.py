"""How long `matrixgen diff` takes: `python -m tests.bench.diff_speed`.

Whole processes on two files of 100 keys that differ in three cells, a pin and a colour, beside
`check` of one of them, taken in turn in the same run.
"""

from __future__ import annotations

import statistics
import tempfile
from pathlib import Path

from tests.bench.check_speed import PINS
from tests.bench.processes import process_seconds
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
            "check of one": ("-m", "matrixgen", "check", str(old)),
            "diff of two": ("-m", "matrixgen", "diff", str(old), str(new)),
        }
        times: dict[str, list[float]] = {name: [] for name in commands}
        for number in range(ROUNDS + WARMING_UP):
            for name, arguments in commands.items():
                seconds = process_seconds(*arguments, check=False)
                if number >= WARMING_UP:
                    times[name].append(seconds)
    check = statistics.median(times["check of one"])
    print(f"files of 100 keys, cold processes, median of {ROUNDS}:")
    for name, taken in times.items():
        middle = statistics.median(taken)
        print(f"  {name:<14} {middle * 1e3:7.1f} ms  {middle / check:5.2f} x check")


if __name__ == "__main__":
    main()
