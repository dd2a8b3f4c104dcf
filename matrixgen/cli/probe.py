"""`matrixgen probe FILE`: what is wrong with a wired board, and where."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from matrixgen.bench.board import Board, board_of
from matrixgen.bench.network import Pairs
from matrixgen.bench.observe import Seen
from matrixgen.bench.port import Bench
from matrixgen.bench.press import Press
from matrixgen.bench.probing import Probing
from matrixgen.bench.protocol import BenchProblem
from matrixgen.bench.suspects import Suspects
from matrixgen.bench.verdict import Verdict, verdict_of
from matrixgen.boards import Profile
from matrixgen.cli.bench_dialogue import (
    SAFETY,
    Ears,
    View,
    add_bench_arguments,
    of_chip,
    opened_bench,
    own_name,
    own_names,
    told_of,
    typed_lines,
)
from matrixgen.cli.check import exit_status
from matrixgen.cli.complain import FINDINGS, FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import tell
from matrixgen.cli.probe_text import told
from matrixgen.cli.write_file import changed_lines, write_file
from matrixgen.jobs.examine import STANDARD_INPUT, Examined, examine, examine_text
from matrixgen.jobs.probe import Probed
from matrixgen.model import SourceText
from matrixgen.model.prose import quoted


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    add_bench_arguments(parser)
    parser.add_argument("--in-order", action="store_true", help="ask for one key after the other")
    parser.add_argument(
        "--fix",
        action="store_true",
        help="where leads are on other pins than the file says and that is all, tell the file",
    )
    parser.add_argument("--json", action="store_true", help="print the verdict as JSON")


def run(arguments: argparse.Namespace) -> int:
    """Probe a board and return the exit status."""
    if arguments.file == STANDARD_INPUT:
        return complain("standard input is what is typed, so it cannot be the file")
    examined = examine(arguments.file)
    if examined.design is None or not examined.is_finished:
        tell(examined.as_finished().errors, examined.texts)
        return exit_status([examined.as_finished()])
    try:
        for line in SAFETY:
            print(line, file=sys.stderr)
        with opened_bench(arguments.port) as bench:
            probed = _probed(examined, bench, arguments)
    except BenchProblem as problem:
        return complain(problem.message, *problem.helps)
    return _tell(probed, arguments)


def _probed(examined: Examined, bench: Bench, arguments: argparse.Namespace) -> Probed:
    """Hold the dialogue, and return what was seen with the verdict on it."""
    assert examined.design
    assert bench.heard.chip
    place, mounted = of_chip(examined.mounted, bench.heard.chip)
    pins = [own_name(pin, mounted.profile) for pin in bench.heard.pins]
    board = board_of(mounted, pins)
    assert board, "a finished file has each line on a pin of its own"
    deaf = [pin for pin in board.pins if pin not in pins]
    if deaf:
        raise BenchProblem(
            f"the bench does not read {quoted(deaf)}, which the file has lines on",
            "load the bench firmware that this program builds for the file's controller",
        )
    suspects = Suspects(board)
    seen = _seen(examined, bench, suspects, mounted.profile, in_order=arguments.in_order)
    verdict = verdict_of(suspects, seen)
    return Probed(
        design=examined.design,
        profile=mounted.profile,
        place=place,
        board=board,
        seen=seen,
        verdict=verdict,
    )


def _seen(
    examined: Examined, bench: Bench, suspects: Suspects, profile: Profile, *, in_order: bool
) -> Seen:
    assert examined.design
    view = View(examined.design.keyboard, sys.stderr)
    ears = Ears(bench, typed_lines())
    board = suspects.board
    rest = _numbers(board, own_names(ears.rest, profile))
    probing = Probing(suspects, rest, in_order=in_order)
    view.say([told_of(bench, ears.rest), *probing.begins()], {})
    while not probing.is_over:
        heard = ears.next()
        if heard is None:
            break
        if isinstance(heard, str):
            said = list(probing.typed(heard))
        else:
            said = list(probing.pressed(_numbers(board, own_names(heard, profile))))
        view.say(said, probing.marks)
    return probing.result


def _numbers(board: Board, press: Press) -> Pairs:
    return frozenset((board.pin_number[low], board.pin_number[read]) for low, read in press)


def _tell(probed: Probed, arguments: argparse.Namespace) -> int:
    if arguments.json:
        from matrixgen.cli.probe_json import as_json

        print(as_json(arguments.file, probed))
    else:
        for line in told(probed):
            print(line)
    if arguments.fix:
        return _fix(probed, arguments.file, quiet=arguments.json)
    return FINE if _is_fine(probed.verdict) else FINDINGS


def _is_fine(verdict: Verdict) -> bool:
    return verdict.is_whole


def _fix(probed: Probed, path: str, *, quiet: bool) -> int:
    """Tell the file where its leads are, if that explains all by itself."""
    if probed.verdict.is_whole:
        return FINE
    text = probed.cured_text(probed.verdict.causes[0])
    if text is None:
        complain("no edit of the file makes up for this", "it takes the soldering iron")
        return FINDINGS
    after = examine_text(path, text, Path(path).parent)
    if not after.is_finished:
        tell(after.as_finished().errors, {path: text})
        complain("the file would not check clean, so that nothing was written")
        return FINDINGS
    if reason := write_file(Path(path), text):
        return complain(f"`{path}` cannot be written: {reason}")
    if not quiet:
        print(f"written into {clean(path)}; build and load the firmware anew:")
        for line in changed_lines(probed.design.source, SourceText(path, text)):
            print(line)
    return FINE
