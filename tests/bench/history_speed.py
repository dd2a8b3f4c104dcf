"""How long `matrixgen history` takes: `python -m tests.bench.history_speed`.

A repository of 1,000 revisions of one file of 70 keys, each with another cell, and whole processes
in turn: an empty Python process, `git log -p` of the same file, and ours: once with nothing kept in
the cache folder, then with all kept but the latest revision, then with all.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tempfile
import time
from functools import partial
from pathlib import Path

from tests.bench.check_speed import PINS
from tests.bench.processes import medians, print_beside
from tests.bench.synthetic import keyboard_text

REVISIONS, ROUNDS = 1000, 5
ENVIRONMENT = {
    **os.environ,
    "GIT_CONFIG_NOSYSTEM": "1",
    "GIT_CONFIG_GLOBAL": os.devnull,
    "PYTHONPATH": str(Path(__file__).parents[2]),
}


def fill(folder: Path, revisions: int) -> None:
    """Make the repository by one `git fast-import`."""
    text = keyboard_text(7, 10, PINS)
    parts = []
    for number in range(revisions):
        cell = f"F{1 + number % 12}"
        text = re.sub(rf"(?<= K{number % 70} = )\w+", cell, text, count=1)
        data = f"{text}# revision {number}\n".encode()  # no content is there twice
        who = f"committer Somebody <somebody@example.org> {1704110400 + 60 * number} +0000"
        head = f"commit refs/heads/main\n{who}\ndata 8\nrevision\nM 100644 inline pad.keys\n"
        parts.append(f"{head}data {len(data)}\n".encode() + data + b"\n")
    run(folder, "git", "init", "-q", "-b", "main")
    run(folder, "git", "fast-import", "--quiet", stdin=b"".join(parts))
    run(folder, "git", "reset", "-q", "--hard")


def run(folder: Path, *words: str, stdin: bytes = b"") -> float:
    """Run a program and return its seconds."""
    begin = time.perf_counter()
    subprocess.run(
        words, cwd=folder, input=stdin, check=True, env=ENVIRONMENT, stdout=subprocess.DEVNULL
    )
    return time.perf_counter() - begin


def main() -> None:
    ours = (sys.executable, "-m", "matrixgen", "history", "pad.keys")
    commands = {
        "empty process": (sys.executable, "-c", "pass"),
        "git log -p": ("git", "log", "-p", "--follow", "--", "pad.keys"),
    }
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        fill(folder, REVISIONS)
        ENVIRONMENT["XDG_CACHE_HOME"] = str(folder / ".git" / "cache")
        run(folder, *ours[:-2], "check", "pad.keys")  # the grammar's tables are kept as well
        middles = {"history, nothing kept": run(folder, *ours)}
        with (folder / "pad.keys").open("a") as file:
            file.write("# the latest\n")
        run(folder, "git", "-c", "user.name=A", "-c", "user.email=a@b", "commit", "-qam", "latest")
        middles["history, one is new"] = run(folder, *ours)
        commands["history, all kept"] = ours
        middles |= medians(commands, partial(run, folder), ROUNDS)
    print(f"{REVISIONS} revisions of 70 keys, median of {ROUNDS}:")
    print_beside("git log -p", middles)


if __name__ == "__main__":
    main()
