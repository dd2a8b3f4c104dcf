"""`matrixgen probe FILE`: what is wrong with a wired board, and where."""

from __future__ import annotations

import argparse
from pathlib import Path

from matrixgen.cli.bench_dialogue import add_bench_arguments, on_the_bench
from matrixgen.cli.check import exit_status
from matrixgen.cli.complain import FINDINGS, FINE, NOT_ENOUGH, complain
from matrixgen.cli.printer import tell
from matrixgen.cli.probe_text import board_lines, verdict_lines, write_report
from matrixgen.cli.write_back import write_back, written_lines
from matrixgen.jobs.examine import STANDARD_INPUT, examine_text
from matrixgen.jobs.meanwhile import to_write
from matrixgen.jobs.probe import Probed, probe
from matrixgen.jobs.wiring_alone import examine_wiring, wiring_errors


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    add_bench_arguments(parser)
    parser.add_argument("--in-order", action="store_true", help="ask for one key after another")
    parser.add_argument(
        "--fix",
        action="store_true",
        help="if the only faults are wires on other pins than the file says, correct the file",
    )
    parser.add_argument(
        "--report",
        metavar="OUT.txt",
        help="also write what the board answers for itself, as a text to send in",
    )
    parser.add_argument("--json", action="store_true", help="print the verdict as JSON")


def run(arguments: argparse.Namespace) -> int:
    """Probe a board and return the exit status."""
    if arguments.file == STANDARD_INPUT:
        return complain("your answers come from standard input, so FILE cannot be `-`")
    examined = examine_wiring(arguments.file)
    wrong = wiring_errors(examined) if examined.design else examined.errors
    if examined.design is None or wrong:
        tell(wrong, examined.texts)
        return exit_status([examined.as_finished()])
    design = examined.design
    probed = on_the_bench(
        "probe",
        examined,
        arguments.port,
        lambda session, say: probe(design, session, say, in_order=arguments.in_order),
    )
    return _tell(probed, arguments)


def _tell(probed: Probed, arguments: argparse.Namespace) -> int:
    if arguments.json:
        from matrixgen.cli.json_report import print_report
        from matrixgen.cli.probe_json import as_json

        print_report(as_json(arguments.file, probed))
    else:
        for line in verdict_lines(probed):
            print(line)
        for line in board_lines(probed.answers, probed.profile):
            print(line)
    if arguments.report:
        write_report(arguments.report, probed.answers, probed.profile)
    if arguments.fix:
        return _fix(probed, arguments.file, quiet=arguments.json)
    return _status(probed)


def _status(probed: Probed) -> int:
    if not probed.verdict.is_whole or probed.knob_faults:
        return FINDINGS
    return FINE if probed.is_whole else NOT_ENOUGH


def _fix(probed: Probed, path: str, *, quiet: bool) -> int:
    """Correct the file's pins, if that alone explains all of what every key showed."""
    if probed.verdict.is_whole:
        return _status(probed)
    if missing := probed.not_fixable:
        complain(*missing)
        return FINDINGS
    text = probed.cured_text(probed.verdict.causes[0])
    assert text is not None
    after = examine_text(path, text, Path(path).parent)
    if wrong := wiring_errors(after):
        tell(wrong, {path: text})
        complain("the file would not pass `check`, so nothing was written")
        return FINDINGS
    write = to_write(Path(path), probed.design.source, text, "probed")
    write_back(write)
    if not quiet:
        advice = "; build and load the firmware again"
        for line in written_lines(write, probed.design.source, advice):
            print(line)
    return FINDINGS if write.is_beside else FINE
