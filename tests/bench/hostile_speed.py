"""How long files take that try to be slow: `python -m tests.bench.hostile_speed [--sheet] [WORD]`.

Each shape of `tests/hostile/slow_files` whose name has one of some words, or every one, is checked
by a process of its own, at the limits of the language and at half of them. Printed are the
seconds of processor time that this took, beside those of a check of two keys; at last the slowest.
With `--sheet` it is their bench sheets.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from tests.bench.processes import process_cpu_seconds
from tests.hostile.slow_files import SHAPES


def seconds(folder: Path, text: str, *words: str) -> float:
    """Return what a command takes for a file, in seconds of processor time."""
    path = folder / "pad.keys"
    path.write_text(text, encoding="utf-8")
    return process_cpu_seconds("-m", "matrixgen", *words, str(path), check=False)


def measured(folder: Path, words: list[str], *command: str) -> None:
    two_keys = seconds(folder, "plate\n  line A B\n", *command)
    print(f"{two_keys:6.2f} s for two keys")
    taken: dict[str, float] = {}
    for name, shape in SHAPES.items():
        if not words or any(word in name for word in words):
            half, taken[name] = (seconds(folder, shape(size), *command) for size in (0.5, 1))
            print(f"{taken[name]:6.2f} s, {half:6.2f} s at half of the limits: {name}", flush=True)
    slowest = max(taken, key=lambda name: taken[name])
    print(f"the slowest: {slowest}, {taken[slowest]:.2f} s")


def main() -> None:
    words = sys.argv[1:]
    with tempfile.TemporaryDirectory() as folder:
        if words[:1] == ["--sheet"]:
            measured(Path(folder), words[1:], "sheet", "-o", f"{folder}/pad.html")
        else:
            measured(Path(folder), words, "check")


if __name__ == "__main__":
    main()
