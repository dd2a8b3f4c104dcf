"""From a save to the page: `python -m tests.bench.watch_speed [EXAMPLE...]`.

`matrixgen sheet --watch` follows a copy of an example while it is saved again and again, each time
with one kind of change. Printed is the time from the save until the page that shows it was read
over HTTP, and until nothing of that page is still to be made; beside them, taken in turn, a whole
process of `matrixgen sheet` on the same file. Median and worst; then what `show --watch` costs
while it waits. No test asserts a time.
"""

from __future__ import annotations

import os
import re
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from tests.bench.processes import process_seconds, worked
from tests.cli.test_watch import Following
from tests.examples.shipped import FOLDER, example

ROUNDS = 7
IDLE_S, SETTLES_S = 20, 2
STILL_MADE = ("still being looked for", "is being compiled")

Edit = Callable[[str, int], str]


def _named(text: str, name: str) -> str:
    """Return a file whose page can be told from those before."""
    return re.sub(r'^keyboard ".*"', f'keyboard "{name}"', text, count=1, flags=re.MULTILINE)


def _same(text: str, number: int) -> str:
    return text


def _keymap(text: str, number: int) -> str:
    return f"{text}\nlayer another{number}\n  {_first_key(text)} = {'ABCDEFGHIJ'[number]}\n"


def _first_key(text: str) -> str:
    key = re.search(r"^  line\s+([A-Za-z]\w*)", text, re.MULTILINE)
    assert key
    return key[1]


def _area(text: str, number: int) -> str:
    """Add an area that no wire may enter, beside the keys: all routes are looked for again."""
    return text.replace("plate\n", f"plate\n  keep clear -3, 0, 1, 0.{number + 1}\n", 1)


EDITS: dict[str, Edit] = {"name": _same, "keymap": _keymap, "plate": _area}


def _times(following: Following, file: Path, text: str, name: str) -> tuple[float, float]:
    begin = time.perf_counter()
    file.write_text(_named(text, name), "utf-8")
    page = following.wait_for(f"<title>{name}:")
    first = time.perf_counter() - begin
    while any(words in page for words in STILL_MADE):
        page = following.wait_for(f"<title>{name}:")
    return first, time.perf_counter() - begin


def measure(name: str, folder: Path) -> None:
    text = (FOLDER / name / f"{name}.keys").read_text("utf-8")
    controller = ("--controller", example(name).profile.name)
    file = folder / f"{name}.keys"
    file.write_text(text, "utf-8")
    with Following(file, *controller) as following:
        page = following.wait_for("bench sheet")
        while any(words in page for words in STILL_MADE):
            page = following.wait_for("bench sheet")
        for kind, edit in EDITS.items():
            _print(
                name,
                kind,
                [
                    (
                        *_times(following, file, edit(text, number), f"{kind} {number}"),
                        _process(file, controller),
                    )
                    for number in range(ROUNDS)
                ],
            )


def _process(file: Path, controller: tuple[str, ...]) -> float:
    out = ("-o", str(file.with_suffix(".html")))
    return process_seconds("-m", "matrixgen", "sheet", str(file), *controller, *out)


def _print(name: str, kind: str, taken: list[tuple[float, float, float]]) -> None:
    columns = (
        f"{statistics.median(one):6.2f} ({max(one):.2f})" for one in zip(*taken, strict=True)
    )
    print(f"  {name:<14} {kind:<8}" + "  ".join(columns), flush=True)


def idle(name: str) -> None:
    """Print what a process costs that waits for a save (Linux alone tells it)."""
    command = (sys.executable, "-m", "matrixgen", "show", str(FOLDER / name / f"{name}.keys"))
    with subprocess.Popen((*command, "--watch"), stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout
        process.stdout.readline()  # it has been drawn
        time.sleep(SETTLES_S)
        before = worked(process.pid)
        time.sleep(IDLE_S)
        taken = worked(process.pid) - before
        process.kill()
    print(f"  {name:<14} waiting  {taken * 60 / IDLE_S:6.2f} s of a processor each minute")


def main() -> None:
    print(f"seconds, median of {ROUNDS} and worst: save to picture; to all of it; a whole process")
    with tempfile.TemporaryDirectory() as folder:
        for name in sys.argv[1:] or ["goosander-104", "avocet-42"]:
            measure(name, Path(folder))
            idle(name)


if __name__ == "__main__":
    os.environ.setdefault("PYTHONHASHSEED", "0")
    main()
