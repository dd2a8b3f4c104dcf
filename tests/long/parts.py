"""The parts of the long run: each a command, and which of its lines sum it up."""

from __future__ import annotations

import re
import sys
from collections.abc import Mapping
from dataclasses import dataclass, field

PYTHON = sys.executable
NOTHING = re.compile(r"(?!)")
TESTS = re.compile(r"^FAILED |^ERROR |\d+ (passed|failed)")


@dataclass(frozen=True)
class Part:
    """A command of the long run; `sums_up` finds the lines that the summary shows."""

    name: str
    what: str
    command: tuple[str, ...]
    sums_up: re.Pattern[str] = NOTHING
    settings: Mapping[str, str] = field(default_factory=dict)


_EVERY = (
    Part("lint", "the rules of style", (PYTHON, "-m", "ruff", "check", ".")),
    Part("format", "the form of the code", (PYTHON, "-m", "ruff", "format", "--check", ".")),
    Part("types", "the types", (PYTHON, "-m", "mypy")),
    Part(
        "suite",
        "every test, all that is random in full and by chance",
        (PYTHON, "-m", "pytest", "-n", "auto", "--durations", "10", "-q"),
        TESTS,
        {"MATRIXGEN_LONG": "1"},
    ),
    Part(
        "firefox",
        "the bench sheet and its engine in the other browser",
        (PYTHON, "-m", "pytest", "tests/browser", "-q"),
        TESTS,
        {"MATRIXGEN_LONG": "1", "MATRIXGEN_BROWSERS": "firefox"},
    ),
    Part(
        "slicer",
        "each example's plate as a solid through a slicer",
        (PYTHON, "-m", "tests.plate.slicer"),
        re.compile(r"^the slicer: |^[^:]*: not "),
    ),
    Part(
        "cad",
        "each example's plate as a drawing through a CAD program",
        (PYTHON, "-m", "tests.plate.cad"),
        re.compile(r"^the CAD program: |^[^:]*: .* (off|instead of) "),
    ),
    Part(
        "editors",
        "Neovim, Vim and Emacs with the language server; VS Code's reader of our colours",
        (PYTHON, "-m", "tests.editor.in_editors"),
        re.compile(r"^(neovim|vim|emacs|colours): "),
    ),
    Part(
        "mutants",
        "mistakes planted in the firmware, each of which has to be found",
        (PYTHON, "-m", "tests.mutants"),
        re.compile(r" killed, "),
    ),
    Part(
        "proof",
        "the firmware by abstract interpretation, an example a line",
        (PYTHON, "-m", "tests.proof"),
        re.compile(r"^\S+: \d+ alarms|^an off-by-one"),
    ),
    Part(
        "fuzz",
        "random lives at the whole firmware",
        (PYTHON, "-m", "tests.fuzz"),
        re.compile(r" runs, |lines never reached|every line reached"),
    ),
    Part(
        "turns",
        "turns of the loop that the AVR emulator leaves out, against all of them run",
        (PYTHON, "-m", "tests.emulators.avr.every_turn"),
        re.compile(r" changes, "),
    ),
    Part(
        "meetings",
        "how often each behaviour met each other",
        (PYTHON, "-m", "tests.firmware.meetings"),
        settings={"MATRIXGEN_LONG": "1"},
    ),
)
PARTS = {part.name: part for part in _EVERY}
