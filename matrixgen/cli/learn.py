"""`matrixgen learn FILE`: a wiring from a soldered board, each key pressed once."""

from __future__ import annotations

import argparse
from pathlib import Path

from matrixgen.cli.bench_dialogue import add_bench_arguments, on_the_bench
from matrixgen.cli.check import exit_status
from matrixgen.cli.complain import FINDINGS, FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import tell
from matrixgen.cli.write_file import changed_lines, write_file
from matrixgen.jobs.examine import STANDARD_INPUT, examine, wrong_after
from matrixgen.jobs.learn import LearnReport, learn
from matrixgen.jobs.learned_text import UnknownPin
from matrixgen.model import SourceText
from matrixgen.model.prose import quoted


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    add_bench_arguments(parser)


def run(arguments: argparse.Namespace) -> int:
    """Learn a wiring, write it, and return the exit status."""
    if arguments.file == STANDARD_INPUT:
        return complain("your answers come from standard input, so FILE cannot be `-`")
    examined = examine(arguments.file)
    if examined.design is None or not examined.is_sound:
        tell(examined.errors, examined.texts)
        return exit_status([examined])
    if not examined.mounted:
        help = "add `controller NAME` to the block `keyboard`; `matrixgen boards` lists the names"
        return complain(f"`{arguments.file}` names no controller", help)
    design = examined.design
    try:
        report = on_the_bench(
            examined, arguments.port, lambda session, say: learn(design, session, say)
        )
    except UnknownPin as unknown:
        help = "name only the controller on the bench in the file, and add the other one later"
        why = f"the wire on `{unknown.args[0]}` is new"
        return complain(f"{why}, and its pin on the file's other controllers is not known", help)
    return report if isinstance(report, int) else _tell(report, design.source, arguments.file)


def _tell(report: LearnReport, source: SourceText, path: str) -> int:
    """Say what came of it, and write what was learned."""
    if report.rest:
        pairs = quoted(f"{low} > {read}" for low, read in sorted(report.rest))
        print(clean(f"closed while nothing is pressed: {pairs}"))
        print("  two wires touch, or a switch sticks: fix that first; nothing was written")
        return FINDINGS
    if report.missing:
        print(f"not pressed: {quoted(map(clean, report.missing))}; nothing was written")
        return FINDINGS
    for remark in report.remarks:
        print(clean(f"`{remark.key}` {remark.says}"))
    if report.text is None:
        print("solder that first, then learn again; nothing was written")
        return FINDINGS
    return _write(source, report.text, path)


def _write(source: SourceText, text: str, path: str) -> int:
    """Write a wiring into its file, and say what it finds to solder."""
    if text == source.original:
        print(f"{clean(path)} already has this wiring")
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
