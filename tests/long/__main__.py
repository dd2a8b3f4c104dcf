"""The long run: `python -m tests.long [PART...]`, or `tests/run --long`, which installs its tools.

Each part is a command of its own and prints as it goes. At the end there is a line for each, with
how it ended and how long it took, and below it what it says of itself.
"""

from __future__ import annotations

import os
import shlex
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass

from tests.long.parts import PARTS, Part


@dataclass(frozen=True)
class Ended:
    """A part that has run: its exit status, its seconds, and its lines for the summary."""

    part: Part
    status: int
    seconds: float
    lines: tuple[str, ...]

    @property
    def summary(self) -> list[str]:
        ended = "passed" if self.status == 0 else f"FAILED with {self.status}"
        head = f"{self.part.name:<10}{self.seconds / 60:8.1f} min   {ended}"
        return [head, *(f"    {line}" for line in self.lines)]


def run(part: Part) -> Ended:
    """Run a part, print what it prints, and keep the lines that sum it up."""
    print(f"\n== {part.name}: {part.what}\n$ {shlex.join(part.command)}", flush=True)
    lines: list[str] = []
    begin = time.perf_counter()
    with subprocess.Popen(
        part.command,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        errors="replace",
        env={**os.environ, **part.settings, "PYTHONUNBUFFERED": "1"},
    ) as running:
        assert running.stdout
        for line in running.stdout:
            print(line, end="", flush=True)
            if part.sums_up.search(line):
                lines.append(line.strip())
    return Ended(part, running.returncode, time.perf_counter() - begin, tuple(lines))


def main(names: Sequence[str]) -> int:
    unknown = sorted(set(names) - PARTS.keys())
    if unknown:
        print(f"no part is called {', '.join(unknown)}: there are {', '.join(PARTS)}")
        return 2
    ended = [run(part) for name, part in PARTS.items() if name in names or not names]
    print("\n== the long run")
    for one in ended:
        print("\n".join(one.summary))
    print(f"{'all':<10}{sum(one.seconds for one in ended) / 60:8.1f} min")
    return 0 if all(one.status == 0 for one in ended) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
