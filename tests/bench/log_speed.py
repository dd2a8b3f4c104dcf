"""How long `git log -p` takes in a repository that is set up: `python -m tests.bench.log_speed`.

20 revisions of one file of 70 keys, each with another cell, and whole processes in turn: plain git,
git in a repository that is set up, and git asked to run what compares for each revision.
"""

from __future__ import annotations

import sys
import tempfile
from functools import partial
from pathlib import Path

from tests.bench.history_speed import fill, run
from tests.bench.processes import medians, print_beside

REVISIONS, ROUNDS = 20, 5


def main() -> None:
    commands = {
        "log -p, plain git": ("git", "log", "-p", "--no-ext-diff", "--no-textconv"),
        "log -p, set up": ("git", "log", "-p"),
        "blame, plain git": ("git", "blame", "--no-textconv", "pad.keys"),
        "blame, set up": ("git", "blame", "pad.keys"),
        "log -p, set up, --ext-diff": ("git", "log", "-p", "--ext-diff"),
    }
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        fill(folder, REVISIONS)
        run(folder, sys.executable, "-m", "matrixgen", "git-setup")
        middles = medians(commands, partial(run, folder), ROUNDS)
    print(f"{REVISIONS} revisions of 70 keys, median of {ROUNDS}:")
    print_beside("log -p, plain git", middles)


if __name__ == "__main__":
    main()
