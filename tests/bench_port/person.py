"""Somebody at the bench: reads what the program says, presses keys, types lines."""

from __future__ import annotations

import re
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import IO

from tests.bench_port.stand_in import StandIn

PATIENCE_S = 60
"""After which a dialogue that hangs is ended, so that its test fails."""

ASKS = re.compile(r"press `(.+?)` \(")


def at_the_bench(
    bench: StandIn,
    words: Sequence[str],
    presses: Sequence[str] = (),
    answer: Callable[[str], str | None] = lambda key: None,
) -> tuple[int, str, str]:
    """Run a command with a bench; return its exit status, output and what it said.

    `presses` are pressed at once, the word `\\n` among them is typed; then each key that is asked
    for is pressed, unless `answer` has a line to type for it.
    """
    command = [sys.executable, "-m", "matrixgen", *words, "--port", bench.path]
    process = subprocess.Popen(
        command,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=Path.cwd(),
    )
    assert process.stdin and process.stderr and process.stdout
    alarm = threading.Timer(PATIENCE_S, process.kill)
    alarm.start()
    said: list[str] = []
    lines = _Lines(process.stderr, said)
    while (line := lines.next()) is not None:
        for what in presses if "closed while nothing is pressed" in line else ():
            _do(bench, process, what, said)
        if asked := ASKS.match(line):
            typed = answer(asked[1])
            _do(bench, process, asked[1] if typed is None else f"\n{typed}", said)
    output = process.stdout.read()
    status = process.wait()
    alarm.cancel()
    for stream in (process.stdin, process.stdout, process.stderr):
        stream.close()
    return status, output, "".join(said)


class _Lines:
    """The lines that a program says, each as soon as it is there; all of them in `said`."""

    def __init__(self, stream: IO[str], said: list[str]) -> None:
        self._said, self._next = said, 0
        self._thread = threading.Thread(target=lambda: said.extend(stream), daemon=True)
        self._thread.start()

    def next(self) -> str | None:
        """Return the next line, None after the last."""
        while self._next == len(self._said):
            if not self._thread.is_alive():
                return None
            time.sleep(0.005)
        self._next += 1
        return self._said[self._next - 1]


def _do(bench: StandIn, process: subprocess.Popen[str], what: str, said: list[str]) -> None:
    """Type a line, or press a key, until the program says something of it."""
    before = len(said)
    if what.startswith("\n"):
        assert process.stdin
        process.stdin.write(f"{what[1:]}\n")
        process.stdin.flush()
    elif not bench.press(what):
        return
    while len(said) == before and process.poll() is None:
        time.sleep(0.005)
    bench.let_go()
