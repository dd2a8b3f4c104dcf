"""`matrixgen learn FILE`: a wiring from a soldered board, each key pressed once."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from matrixgen.bench.learn import Learned, Remark, learned
from matrixgen.bench.learning import Learning
from matrixgen.bench.port import Bench
from matrixgen.bench.press import Press
from matrixgen.bench.protocol import BenchProblem
from matrixgen.cli.bench_dialogue import (
    SAFETY,
    Ears,
    View,
    add_bench_arguments,
    of_chip,
    opened_bench,
    own_names,
    told_of,
    typed_lines,
)
from matrixgen.cli.check import exit_status
from matrixgen.cli.complain import FINDINGS, FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import tell
from matrixgen.cli.write_file import changed_lines, write_file
from matrixgen.jobs.examine import STANDARD_INPUT, Examined, examine, wrong_after
from matrixgen.jobs.learn import Home, Lost, learned_text
from matrixgen.model import SourceText
from matrixgen.model.prose import quoted


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    add_bench_arguments(parser)


def run(arguments: argparse.Namespace) -> int:
    """Learn a wiring, write it, and return the exit status."""
    if arguments.file == STANDARD_INPUT:
        return complain("standard input is what is typed, so it cannot be the file")
    examined = examine(arguments.file)
    if examined.design is None or not examined.is_sound:
        tell(examined.errors, examined.texts)
        return exit_status([examined])
    if not examined.mounted:
        help = "a line `controller NAME` in the block `keyboard`; `matrixgen boards` lists them"
        return complain(f"`{arguments.file}` names no controller", help)
    try:
        for line in SAFETY:
            print(line, file=sys.stderr)
        with opened_bench(arguments.port) as bench:
            home, learning, rest = _learned(examined, bench)
    except BenchProblem as problem:
        return complain(problem.message, *problem.helps)
    return _write(home, learning, rest, arguments.file)


def _learned(examined: Examined, bench: Bench) -> tuple[Home, Learning, Press]:
    """Hold the dialogue; return where the wiring goes, what was pressed, what is closed at rest."""
    assert examined.design
    assert bench.heard.chip
    place, mounted = of_chip(examined.mounted, bench.heard.chip)
    keyboard, profile = examined.design.keyboard, mounted.profile
    view, ears = View(keyboard, sys.stderr), Ears(bench, typed_lines())
    learning = Learning([key.name.text for key in keyboard.keys])
    home = Home(examined.design, profile, place)
    rest = own_names(ears.rest, profile)
    if rest:
        return home, learning, rest
    view.say([told_of(bench, rest), *learning.begins()], {})
    while not learning.is_over:
        heard = ears.next()
        if heard is None:
            break
        if isinstance(heard, str):
            said = list(learning.typed(heard))
        else:
            said = list(learning.pressed(own_names(heard, profile)))
        view.say(said, learning.marks)
    return home, learning, rest


def _write(home: Home, learning: Learning, rest: Press, path: str) -> int:
    if rest:
        pairs = quoted(f"{low} > {read}" for low, read in sorted(rest))
        print(clean(f"closed while nothing is pressed: {pairs}"))
        print("  two wires touch, or a switch sticks: cure that first; nothing was written")
        return FINDINGS
    if learning.missing:
        print(f"not pressed: {quoted(map(clean, learning.missing))}; nothing was written")
        return FINDINGS
    found = learned(home.design.keyboard.keys, learning.presses, home.row_pins())
    _remark(found.remarks)
    if not found.is_right:
        print("solder that first, then learn again; nothing was written")
        return FINDINGS
    return _written(home, found, path)


def _remark(remarks: Sequence[Remark]) -> None:
    for remark in remarks:
        print(clean(f"`{remark.key}` {remark.says}"))


def _written(home: Home, found: Learned, path: str) -> int:
    """Write a wiring into its file, and say what it finds to solder."""
    try:
        text = learned_text(home, found)
    except Lost as lost:
        help = "name only the controller on the bench in the file, and add the other one later"
        why = f"the line on `{lost.args[0]}` is new"
        return complain(f"{why}, and its pin on the file's other controllers is not known", help)
    source = home.design.source
    if text == source.original:
        print(f"{clean(path)} has this wiring already")
        return FINE
    if reason := write_file(Path(path), text):
        return complain(f"`{path}` cannot be written: {reason}")
    print(f"written into {clean(path)}:")
    for line in changed_lines(source, SourceText(path, text)):
        print(line)
    wrong = wrong_after(text, path)
    if wrong is None:
        return FINE
    tell(wrong.errors, wrong.texts)
    return FINDINGS
