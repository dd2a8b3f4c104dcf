"""Somebody at the bench: reads what the program says, presses keys, types lines."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import IO

from tests.bench_port.program import Looks
from tests.bench_port.stand_in import StandIn
from tests.patience import HANGS_S

CTRL_C = "\x03"

Turn = tuple[str, int]
"""A knob, and by how many states it is turned to the right, or below 0 to the left."""

Doing = str | tuple[str, ...] | Turn
"""A key that is pressed, several that are held, Ctrl-C, a turn, or a typed line after `\\n`."""

Answer = Callable[[str], str | list[Doing] | None]
"""What is typed when a key is asked for, or all that is done then; None is to press it."""

LOOKS = 4
"""After so many looks in which nothing came the program takes what was there before as steady."""

QUESTION = re.compile(r"(y \| n|both are down|no response) \| :skip \| :stop\)$")
"""A question that tells explanations apart, and not one for the next key."""

ASKS = re.compile(r"press `(.+?)` \(")
TURNS = re.compile(r"(?:turn|now turn) `(.+?)` one step (back|to the right)")

STEP = 4
"""States of a step."""


def as_asked(knob: str, way: str) -> list[Doing]:
    """Turn a knob as it is asked for, and say so."""
    return [(knob, -STEP if way == "back" else STEP), "\n"]


def at_the_bench(
    bench: StandIn,
    words: Sequence[str],
    presses: Sequence[Doing] = (),
    answer: Answer = lambda key: None,
    reply: Callable[[str], str] = lambda question: "stop",
    cache: Path | None = None,
    offered: str = "",
    turn: Callable[[str, str], list[Doing]] = as_asked,
) -> tuple[int, str, str]:
    """Run a command with a bench; return its exit status, output and what it said.

    `presses` are pressed at once, the word `\\n` among them is typed; then each key that is asked
    for is pressed, unless `answer` has a line to type for it. Answers are kept in the
    folder `cache`, or nowhere; `offered` is typed where those of an earlier run are found there.
    `turn` says what is done where a knob is to be turned, by its name and the side.
    """
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "looks"
        looks = Looks.made_at(file)
        dialogue = _Dialogue(bench, looks, [str(file), *words], cache or Path(folder))
        return dialogue.held(presses, answer, reply, offered, turn)


class _Dialogue:
    """The program, and somebody before it."""

    def __init__(self, bench: StandIn, looks: Looks, words: Sequence[str], cache: Path) -> None:
        self._bench, self._looks = bench, looks
        self._begins = "press each of" if bench.knobs else "closed while nothing is pressed"
        self._said: list[str] = []
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.bench_port.program", *words, "--port", bench.path],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            cwd=Path.cwd(),
            env={**os.environ, "XDG_CACHE_HOME": str(cache)},
        )

    def held(
        self,
        presses: Sequence[Doing],
        answer: Answer,
        reply: Callable[[str], str],
        offered: str,
        turn: Callable[[str, str], list[Doing]],
    ) -> tuple[int, str, str]:
        """Press and type until the program leaves; return what it leaves behind."""
        process = self._process
        assert process.stdin and process.stderr and process.stdout
        alarm = threading.Timer(HANGS_S, process.kill)
        alarm.start()
        lines = _Lines(process.stderr, self._said)
        while (line := lines.next()) is not None:
            for what in presses if self._begins in line else ():
                self._do(what)
            if "Enter goes on with them" in line:
                self._do(f"\n{offered}")
            elif QUESTION.search(line):
                self._do(f"\n{reply(line)}")
            elif asked := TURNS.match(line):
                for what in turn(asked[1], asked[2]):
                    self._do(what)
            elif asked := ASKS.match(line):
                for what in _done(asked[1], answer(asked[1])):
                    self._do(what)
        output = process.stdout.read()
        status = process.wait()
        alarm.cancel()
        for stream in (process.stdin, process.stdout, process.stderr):
            stream.close()
        return status, output, "".join(self._said)

    def _do(self, what: Doing) -> None:
        """Type a line, or press keys, until the program says something of it."""
        before = len(self._said)
        if what == CTRL_C:
            self._process.send_signal(signal.SIGINT)
        elif isinstance(what, str) and what.startswith("\n"):
            assert self._process.stdin
            self._process.stdin.write(f"{what[1:]}\n")
            self._process.stdin.flush()
        elif isinstance(what, tuple) and isinstance(what[1], int):
            self._bench.turn(what[0], what[1])
            self._rest()
            return
        elif not self._bench.press(*([what] if isinstance(what, str) else what)):
            return
        self._wait_until(lambda: len(self._said) > before)
        self._rest()
        self._bench.let_go()
        self._rest()

    def _rest(self) -> None:
        """Do nothing until the program has seen for long enough what is closed now."""
        self._wait_until(lambda: self._bench.port.is_read)
        until = self._looks.count + LOOKS
        self._wait_until(lambda: self._looks.count >= until)

    def _wait_until(self, is_so: Callable[[], bool]) -> None:
        while not is_so() and self._process.poll() is None:
            time.sleep(0.002)


def _done(asked: str, answered: str | list[Doing] | None) -> list[Doing]:
    """What is done when a key is asked for."""
    if isinstance(answered, list):
        return answered
    return [asked if answered is None else f"\n{answered}"]


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
            time.sleep(0.002)
        self._next += 1
        return self._said[self._next - 1]
