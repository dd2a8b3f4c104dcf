"""How long `matrixgen check` takes: `python -m tests.bench.check_speed`.

Cold: whole processes on a file of 70 keys, beside an empty Python process and one that imports
lark alone, taken in turn in the same run. Warm: reading and checking 1,000 and 10,000 keys in one
process, in time per key. The grammar's tables are cached before the first reading.
"""

from __future__ import annotations

import gc
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from matrixgen.boards import builtin_profile
from matrixgen.rules import check_keyboard
from matrixgen.source import Limits, read_keyboard
from tests.bench.synthetic import keyboard_text

PINS = [f"PB{bit}" for bit in range(8)] + [f"PD{bit}" for bit in range(7)] + ["PC6", "PC7"]
ROUNDS = 21
LIFTED = Limits(file_bytes=10**9, lines_per_axis=10**6, keys=10**6)


def process_seconds(*arguments: str) -> float:
    begin = time.perf_counter()
    subprocess.run([sys.executable, *arguments], check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - begin


def cold(path: Path) -> None:
    commands = {
        "empty process": ("-c", "pass"),
        "import lark": ("-c", "import lark"),
        "check, 70 keys": ("-m", "matrixgen", "check", str(path)),
    }
    times: dict[str, list[float]] = {name: [] for name in commands}
    process_seconds(*commands["check, 70 keys"])
    for _ in range(ROUNDS):
        for name, arguments in commands.items():
            times[name].append(process_seconds(*arguments))
    empty = statistics.median(times["empty process"])
    print(f"cold processes, median of {ROUNDS}:")
    for name, taken in times.items():
        middle = statistics.median(taken)
        print(f"  {name:<16} {middle * 1e3:7.1f} ms  {middle / empty:5.1f} x an empty process")


def best(action: Callable[[], object], rounds: int = 5) -> float:
    def once() -> float:
        begin = time.perf_counter()
        action()
        return time.perf_counter() - begin

    return min(once() for _ in range(rounds))


def checked(text: str) -> None:
    """Read and check a file whose pins are no chip's, so that the pin rules all have something."""
    keyboard, findings = read_keyboard("bench.keys", text, LIFTED)
    profile = builtin_profile("atmega32u4")
    assert keyboard is not None and profile is not None, findings[:3]
    check_keyboard(keyboard, profile)


def warm() -> None:
    gc.disable()  # as the program does (matrixgen/cli/main.py)
    print("reading and every rule, one process, best of 5:")
    per_key = {}
    for rows, columns in ((25, 40), (100, 100)):
        text = keyboard_text(rows, columns)
        keys = rows * columns
        seconds = best(lambda text=text: checked(text))
        per_key[keys] = seconds / keys
        print(f"  {keys:>6} keys  {seconds * 1e3:8.1f} ms  {seconds / keys * 1e6:6.1f} us per key")
    print(f"  10,000 keys take {per_key[10_000] / per_key[1_000]:.2f} x as long per key as 1,000")


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "bench.keys"
        path.write_text(keyboard_text(7, 10, PINS), encoding="utf-8")
        cold(path)
    warm()


if __name__ == "__main__":
    main()
