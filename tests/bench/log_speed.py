"""How long `git log -p` takes in a repository that is set up: `python -m tests.bench.log_speed`.

20 revisions of one file of 70 keys, each with another cell, and whole processes in turn: plain git,
git in a repository that is set up, and git asked to run what compares for each revision.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
from pathlib import Path

from tests.bench.history_speed import fill, run

REVISIONS, ROUNDS = 20, 5


def main() -> None:
    commands = {
        "plain git": ("git", "log", "-p", "--no-ext-diff", "--no-textconv"),
        "set up": ("git", "log", "-p"),
        "blame, plain git": ("git", "blame", "--no-textconv", "pad.keys"),
        "blame, set up": ("git", "blame", "pad.keys"),
        "set up, --ext-diff": ("git", "log", "-p", "--ext-diff"),
    }
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        fill(folder, REVISIONS)
        run(folder, sys.executable, "-m", "matrixgen", "git-setup")
        times: dict[str, list[float]] = {one: [] for one in commands}
        for _ in range(ROUNDS):
            for one, words in commands.items():
                times[one].append(run(folder, *words))
    plain = statistics.median(times["plain git"])
    print(f"{REVISIONS} revisions of 70 keys, median of {ROUNDS}:")
    for one, taken in times.items():
        middle = statistics.median(taken)
        print(f"  {one:<20} {middle * 1e3:8.1f} ms  {middle / plain:6.2f} x plain git log -p")


if __name__ == "__main__":
    main()
