"""How fast `matrixgen fmt` is: `python -m tests.bench.fmt_speed`.

1,000 files of 70 keys in one process, each with comments and spaced by chance: bringing them into
form, finding that they are in form, and what `check` takes for the same files, reading and every
rule. The three take turns, so that a busy machine slows all of them.
"""

from __future__ import annotations

import gc
import random
import time
from pathlib import Path

from matrixgen.format.formatted import formatted
from matrixgen.jobs.examine import examine_text
from matrixgen.model import SourceText
from tests.bench.check_speed import PINS
from tests.bench.synthetic import keyboard_text
from tests.language.spacing import Spacing, statements_of

FILES = 1_000


def spaced_files() -> list[str]:
    """Return the same keyboard, spaced in a thousand ways."""
    chance = random.Random(1)
    statements = statements_of(keyboard_text(7, 10, PINS))
    return [Spacing(chance).text(statements) for _ in range(FILES)]


def form_of(text: str) -> str:
    made = formatted(SourceText("bench.keys", text))
    assert made.text is not None, made.findings
    return made.text


def main() -> None:
    gc.disable()  # as the program does (matrixgen/cli/main.py)
    taken = {"bring into form": 0.0, "find in form": 0.0, "check": 0.0}
    for text in spaced_files():
        begin = time.perf_counter()
        form = form_of(text)
        formed = time.perf_counter()
        assert form_of(form) == form
        found = time.perf_counter()
        assert examine_text("bench.keys", text, Path()).is_sound
        end = time.perf_counter()
        for name, seconds in zip(taken, (formed - begin, found - formed, end - found), strict=True):
            taken[name] += seconds
    print(f"{FILES:,} files of 70 keys, one process:")
    for name, seconds in taken.items():
        times = seconds / taken["check"]
        print(f"  {name:<16} {FILES / seconds:6.0f} files a second  {times:5.2f} x check")


if __name__ == "__main__":
    main()
