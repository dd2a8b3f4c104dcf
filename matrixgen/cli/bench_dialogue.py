"""What `learn` and `probe` have in common: their arguments, and the plate beside what is said."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TextIO, TypeVar

from matrixgen.bench.serial.protocol import HeldHigh
from matrixgen.bench.serial.supply import supply_problem
from matrixgen.cli.complain import FINDINGS
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import is_screen
from matrixgen.draw import plate_text
from matrixgen.failure import Failure
from matrixgen.jobs.bench_session import Say, Session, opened_bench
from matrixgen.jobs.examine import Examined
from matrixgen.model import Keyboard

SAFETY = (
    "first, unplugged: check that supply and ground are not connected. A short between them",
    "is not found here, and can harm the controller and the computer. Check too that no wire is",
    "connected to VCC, RAW or 5 V. Then plug in; press nothing.",
)
ON_THE_SUPPLY = "wire-on-supply"
"""What a script gets for a wire that lies on the supply."""

CLEAR = "\x1b[H\x1b[J"
MOST_LINES = 6
"""Lines that are shown below a plate that is drawn anew."""

Made = TypeVar("Made")


def add_bench_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the arguments of a command that listens to a bench."""
    parser.add_argument("file", metavar="FILE", help="a .keys file with a plate and a controller")
    parser.add_argument(
        "--port",
        metavar="PORT",
        help="the serial port of the bench firmware (default: that of the only bench firmware)",
    )


def on_the_bench(
    command: str, examined: Examined, port: str | None, job: Callable[[Session, Say], Made]
) -> Made:
    """Return what a job makes of the bench at a port; raises `Failure` where that cannot be used.

    What was answered until then is kept for the command and the file.
    """
    assert examined.design
    for line in SAFETY:
        print(line, file=sys.stderr)
    view = DialogueView(examined.design.keyboard, sys.stderr)
    typed = sys.stdin.fileno() if sys.stdin is not None else None
    session = None
    try:
        with opened_bench(port) as bench:
            kept_for = (command, Path(examined.path))
            session = Session(bench, examined.mounted, typed, kept_for)
            return job(session, view.say)
    except HeldHigh as held:
        problem = supply_problem(examined.mounted, held)
        helps = (*problem.helps, *_kept_of(session))
        raise Failure(problem.text, *helps, slug=ON_THE_SUPPLY, status=FINDINGS) from held
    except Failure as problem:
        raise Failure(problem.text, *problem.helps, *_kept_of(session)) from problem
    except KeyboardInterrupt:
        for line in _kept_of(session):
            print(f"\n{clean(line)}", file=sys.stderr)
        raise


def _kept_of(session: Session | None) -> tuple[str, ...]:
    return tuple(session.kept.says()) if session else ()


class DialogueView:
    """Shows the plate and what is said: drawn anew on a terminal, line by line elsewhere."""

    def __init__(self, keyboard: Keyboard, out: TextIO) -> None:
        self._keys, self._out = keyboard.keys, out
        self._draws = is_screen(out)
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
