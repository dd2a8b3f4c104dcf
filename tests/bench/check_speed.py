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
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from matrixgen.boards import Mounted, builtin_profile
from matrixgen.rules import check_keyboard, check_mounted
from matrixgen.source import Limits, read_design
from tests.bench.processes import medians, print_beside, process_cpu_seconds
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
    text = keyboard_text(7, 10, PINS)
    head, _, rest = text.partition("\n\n")
    allow = "  allow pin-with-second-function PE2"
    holes = "plate\n  hole at -1, 0.5\n  keep clear -2, 2, 1, 1\n"
    corners = "-0.4, -0.4 to 10.4, -0.4 to 10.4, 6.2 to 10.2, 6.2 to 10.2, 7.4 to -0.4, 7.4"
    sizes = "cut-out 13.8 x 13.8 mm\n  thickness 3 mm"
    shaped = f"plate\n  outline from {corners} radius 4 mm\n  {sizes}\n"
    files = {
        "plain": text,
        "allowing": f"{head}\n{allow}\n\n{rest}".replace("on PB0 ", "on PE2 "),
        "holed": text.replace("plate\n", holes),
        "outlined": text.replace("plate\n", shaped),
    }
    paths = {name: folder / f"{name}.keys" for name in files}
    for name, path in paths.items():
        path.write_text(files[name], encoding="utf-8")
    check = {name: ("-m", "matrixgen", "check", str(path)) for name, path in paths.items()}
    commands = {
        "empty process": ("-c", "pass"),
        "import lark": ("-c", "import lark"),
        "import ours": ("-c", "import matrixgen.cli.main, matrixgen.cli.check"),
        "check, 70 keys": check["plain"],
        "with a screw hole": check["holed"],
        "with corners of its own": check["outlined"],
        "with an allow": check["allowing"],
        "and with an option": (*check["allowing"], "--allowed"),
    }
    environment = with_byte_code(folder / "byte-code")
    measure = partial(process_cpu_seconds, environment=environment)
    print(f"cold processes, CPU time, median of {ROUNDS}:")
    print_beside("empty process", medians(commands, measure, ROUNDS, WARMING_UP))


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
