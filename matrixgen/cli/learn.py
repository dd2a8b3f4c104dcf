"""`matrixgen learn FILE`: a wiring as the keys and knobs of a soldered board show it."""

from __future__ import annotations

import argparse
from pathlib import Path

from matrixgen.cli.bench_dialogue import add_bench_arguments, on_the_bench
from matrixgen.cli.check import exit_status
from matrixgen.cli.complain import FINDINGS, FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import tell
from matrixgen.cli.write_back import write_back, written_lines
from matrixgen.jobs.examine import STANDARD_INPUT, wrong_after
from matrixgen.jobs.learn import LearnReport, learn
from matrixgen.jobs.learned_text import UnknownPin
from matrixgen.jobs.meanwhile import to_write
from matrixgen.jobs.wiring_alone import examine_wiring
from matrixgen.model import SourceText
from matrixgen.model.prose import quoted

STILL_OPEN = ("key-on-no-row", "key-on-no-column")
"""What is found of keys that were not learned, which are named anyhow."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    add_bench_arguments(parser)


def run(arguments: argparse.Namespace) -> int:
    """Learn a wiring, write it, and return the exit status."""
    if arguments.file == STANDARD_INPUT:
        return complain("your answers come from standard input, so FILE cannot be `-`")
    examined = examine_wiring(arguments.file)
    if examined.design is None:
        tell(examined.errors, examined.texts)
        return exit_status([examined])
    if not examined.mounted:
        help = "add `controller NAME` to the block `keyboard`; `matrixgen boards` lists the names"
        return complain(f"`{arguments.file}` names no controller", help)
    design = examined.design
    try:
        report = on_the_bench(
            "learn", examined, arguments.port, lambda session, say: learn(design, session, say)
        )
    except UnknownPin as unknown:
        help = "name only the controller on the bench in the file, and add the other one later"
        why = f"the wire on `{unknown.args[0]}` is new"
        return complain(f"{why}, and its pin on the file's other controllers is not known", help)
    return _tell(report, design.source, arguments.file)


def _tell(report: LearnReport, source: SourceText, path: str) -> int:
    """Say what came of it, and write what was learned."""
    if report.rest:
        pairs = quoted(f"{low} > {read}" for low, read in sorted(report.rest))
        print(clean(f"closed while nothing is pressed: {pairs}"))
        print("  unplug; two wires touch, or a switch sticks: fix that first; nothing was written")
        return FINDINGS
    to_solder = [remark for remark in report.remarks if remark.is_wrong]
    if to_solder:
        print("unplug before you solder:")
    for remark in report.remarks:
        print(clean(f"  `{remark.key}` {remark.says}"))
    if report.missing:
        print(clean(f"not pressed: {quoted(report.missing)}; left as the file has them"))
        print("the next `matrixgen learn` can go on with them")
    if report.not_turned:
        print(clean(f"not turned: {quoted(report.not_turned)}; left as the file has them"))
    if report.text is None:
        print("nothing was learned; nothing was written")
        return FINDINGS
    status = _write(source, report.text, path)
    is_open = to_solder or report.missing or report.not_turned
    return status if status or not is_open else FINDINGS


def _write(source: SourceText, text: str, path: str) -> int:
    """Write a wiring into its file, and say what it finds to solder."""
    if text == source.original:
        print(f"{clean(path)} already has this wiring")
        return FINE
    write = to_write(Path(path), source, text, "learned")
    write_back(write)
    for line in written_lines(write, source):
        print(line)
    if write.is_beside:
        return FINDINGS
    wrong = wrong_after(write.text, path)
    if wrong is None:
        return FINE
    tell([one for one in wrong.errors if one.slug not in STILL_OPEN], wrong.texts)
    return FINDINGS
