"""How long `matrixgen check` takes: `python -m tests.bench.check_speed`.

Cold: whole processes on a file of 70 keys, with and without an `allow`, beside an empty Python
process and one that imports lark alone, taken in turn in the same run, in CPU time. As in an
installed program, the byte code of all modules is there before: it is kept in a folder of the
bench's own, since a checkout may have none. `import ours` is what the same modules cost without a
file. Warm: reading and checking 1,000 and 10,000 keys in one process, in time per key. The
grammar's tables are cached before the first reading.
"""

from __future__ import annotations

import gc
import os
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from matrixgen.boards import Mounted, builtin_profile
from matrixgen.rules import check_keyboard, check_mounted
from matrixgen.source import Limits, read_design
from tests.bench.processes import process_cpu_seconds
from tests.bench.synthetic import keyboard_text

PINS = [f"PB{bit}" for bit in range(8)] + [f"PD{bit}" for bit in range(7)] + ["PC6", "PC7"]
ROUNDS, WARMING_UP = 21, 2
LIFTED = Limits(file_bytes=10**9, lines_per_axis=10**6, keys=10**6)


def with_byte_code(folder: Path) -> dict[str, str]:
    """The environment of processes whose byte code is kept in a folder, whatever ours says."""
    environment = {**os.environ, "PYTHONPYCACHEPREFIX": str(folder)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    return environment


def cold(folder: Path) -> None:
    plain, allowing = folder / "plain.keys", folder / "allowing.keys"
    text = keyboard_text(7, 10, PINS)
    plain.write_text(text, encoding="utf-8")
    head, _, rest = text.partition("\n\n")
    allow = "  allow pin-with-second-function PE2"
    text = f"{head}\n{allow}\n\n{rest}".replace("on PB0 ", "on PE2 ")
    allowing.write_text(text, encoding="utf-8")
    holed = folder / "holed.keys"
    holes = "plate\n  hole at -1, 0.5\n  keep clear -2, 2, 1, 1\n"
    holed.write_text(plain.read_text("utf-8").replace("plate\n", holes), encoding="utf-8")
    outlined = folder / "outlined.keys"
    corners = "-0.4, -0.4 to 10.4, -0.4 to 10.4, 6.2 to 10.2, 6.2 to 10.2, 7.4 to -0.4, 7.4"
    sizes = "cut-out 13.8 x 13.8 mm\n  thickness 3 mm"
    shaped = f"plate\n  outline from {corners} radius 4 mm\n  {sizes}\n"
    outlined.write_text(plain.read_text("utf-8").replace("plate\n", shaped), encoding="utf-8")
    commands = {
        "empty process": ("-c", "pass"),
        "import lark": ("-c", "import lark"),
        "import ours": ("-c", "import matrixgen.cli.main, matrixgen.cli.check"),
        "check, 70 keys": ("-m", "matrixgen", "check", str(plain)),
        "with a screw hole": ("-m", "matrixgen", "check", str(holed)),
        "with corners of its own": ("-m", "matrixgen", "check", str(outlined)),
        "with an allow": ("-m", "matrixgen", "check", str(allowing)),
        "and with an option": ("-m", "matrixgen", "check", "--allowed", str(allowing)),
    }
    environment = with_byte_code(folder / "byte-code")
    times: dict[str, list[float]] = {name: [] for name in commands}
    for number in range(ROUNDS + WARMING_UP):
        for name, arguments in commands.items():
            seconds = process_cpu_seconds(*arguments, environment=environment)
            if number >= WARMING_UP:
                times[name].append(seconds)
    empty = statistics.median(times["empty process"])
    print(f"cold processes, CPU time, median of {ROUNDS}:")
    for name, taken in times.items():
        middle = statistics.median(taken)
        print(f"  {name:<24} {middle * 1e3:7.1f} ms  {middle / empty:5.1f} x an empty process")


def best(action: Callable[[], object], rounds: int = 5) -> float:
    def once() -> float:
        begin = time.perf_counter()
        action()
        return time.perf_counter() - begin

    return min(once() for _ in range(rounds))


def checked(text: str) -> None:
    """Read and check a file whose pins are no chip's, so that the pin rules all have something."""
    design, findings = read_design("bench.keys", text, LIFTED)
    profile = builtin_profile("atmega32u4")
    assert design is not None and profile is not None, findings[:3]
    check_keyboard(design.keyboard, design.allowances)
    for mounting in design.mountings:
        check_mounted(Mounted(design.keyboard, mounting, profile))


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
        cold(Path(folder))
    warm()


if __name__ == "__main__":
    main()
