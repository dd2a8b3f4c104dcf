"""What `learn` and `probe` have in common: an open bench, presses and lines as they come."""

from __future__ import annotations

import argparse
import os
import sys
import threading
import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from queue import Empty, SimpleQueue
from typing import TextIO

from matrixgen.bench.port import Bench, chosen_port, open_port
from matrixgen.bench.press import Press, Presses
from matrixgen.bench.protocol import BenchProblem
from matrixgen.boards import Mounted, Profile
from matrixgen.cli.fit_to_print import clean
from matrixgen.draw import plate_text
from matrixgen.model import Keyboard
from matrixgen.model.prose import counted, quoted

SAFETY = (
    "first of all, unplugged: measure that supply and ground are not joined. A short between them",
    "is not found here, and can harm the controller and the computer. Then plug in, press nothing.",
)
STEADY_S = 0.3
"""How long the pins are watched before the first key, for what comes and goes."""

CLEAR = "\x1b[H\x1b[J"
MOST_LINES = 6
"""Lines that are shown below a plate that is drawn anew."""

Heard = Press | str | None
"""A press, a line that was typed, or None where no more lines come."""


def add_bench_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the arguments of a command that listens to a bench."""
    parser.add_argument("file", metavar="FILE", help="a .keys file with a plate and a controller")
    parser.add_argument(
        "--port",
        metavar="PORT",
        help="the serial port of the bench firmware; without it, the only one of a USB device",
    )


@contextmanager
def opened_bench(port: str | None) -> Iterator[Bench]:
    """Open a bench that has said everything once; raises `BenchProblem`."""
    name = chosen_port(port)
    line = open_port(name)
    try:
        bench = Bench(line, clean(name))
        bench.start()
        yield bench
    finally:
        line.close()


def of_chip(mounted: Iterable[Mounted], chip: str) -> tuple[int, Mounted]:
    """Return the controller that a bench runs on, and its place among those of the file."""
    every = list(mounted)
    for place, one in enumerate(every):
        if one.profile.chip.casefold() == chip.casefold():
            return place, one
    chips = quoted(dict.fromkeys(one.profile.chip for one in every), "or")
    raise BenchProblem(
        f"the bench runs on `{clean(chip)}`, and the file is for {chips}",
        "change the file's line `controller`, or plug in the other board",
    )


def own_names(press: Press, profile: Profile) -> Press:
    """Return pairs of pins by the profile's names, whichever of a pin's names the bench says."""
    return frozenset((own_name(low, profile), own_name(read, profile)) for low, read in press)


def own_name(word: str, profile: Profile) -> str:
    """Return a pin's name in the profile."""
    pin = profile.pin(word)
    return pin.name if pin else word


class Ears:
    """Waits for presses at the bench and for lines at the terminal, whichever comes first."""

    def __init__(self, bench: Bench, lines: int | None) -> None:
        """`lines` is the file descriptor that lines are typed at, None where there is none."""
        self._bench = bench
        self._typed: SimpleQueue[str | None] = SimpleQueue()
        end = time.monotonic() + STEADY_S
        while time.monotonic() < end:
            bench.listen()
        bench.states()
        self.rest = bench.closed
        self._presses = Presses(self.rest)
        if lines is None:
            self._typed.put(None)
        else:
            threading.Thread(target=self._read, args=(lines,), daemon=True).start()

    def _read(self, lines: int) -> None:
        """Pass lines on, straight from the system: Python's reader holds a lock at the end."""
        rest = b""
        while data := os.read(lines, 4096):
            *whole, rest = (rest + data).split(b"\n")
            for line in whole:
                self._typed.put(line.decode("utf-8", "replace"))
        self._typed.put(None)

    def next(self) -> Heard:
        """Return the next press or line; None once no more lines come. Raises `BenchProblem`."""
        while True:
            try:
                return self._typed.get_nowait()
            except Empty:
                self._bench.listen()
            now_ms = time.monotonic() * 1000
            found = [self._presses.see(now_ms, state) for state in self._bench.states()]
            for press in found:
                if press is not None:
                    return press


class View:
    """Shows the plate and what is said: drawn anew on a terminal, line by line elsewhere."""

    def __init__(self, keyboard: Keyboard, out: TextIO) -> None:
        self._keys, self._out = keyboard.keys, out
        self._draws = out.isatty()
        self._said: list[str] = []

    def say(self, lines: Iterable[str], marks: dict[str, str]) -> None:
        """Say some lines, beside the plate with a mark at some keys."""
        new = [clean(line) for line in lines]
        self._said = [*self._said, *new][-MOST_LINES:]
        if self._draws:
            drawn = [*self.plate(marks), "", *self._said]
            new = [CLEAR + drawn[0], *drawn[1:]]
        for line in new:
            print(line, file=self._out, flush=True)

    def plate(self, marks: dict[str, str]) -> list[str]:
        """Return the plate with a mark at some keys, and dots elsewhere."""
        return [clean(line) for line in plate_text(self._keys, marks)]


def typed_lines() -> int | None:
    """Return the file descriptor that lines are typed at; None where standard input is closed."""
    return sys.stdin.fileno() if sys.stdin is not None else None


def told_of(bench: Bench, rest: Press) -> str:
    """Return what the bench is, and what is closed at rest."""
    chip, pins = clean(bench.heard.chip or ""), counted(len(bench.heard.pins), "pin")
    closed = ", ".join(clean(f"{low} > {read}") for low, read in sorted(rest))
    return f"{chip}, {pins}; closed while nothing is pressed: {closed or 'nothing'}"
