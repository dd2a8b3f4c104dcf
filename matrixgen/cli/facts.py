"""`matrixgen facts FILE`: what a file says, one fact a line: for `git log -p`, and for `sort`."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from matrixgen.cli.complain import BAD_USE, FINDINGS, FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import tell
from matrixgen.compare.fact_lines import fact_lines
from matrixgen.model.reason import helps_of, reason_of
from matrixgen.reach import read_argument
from matrixgen.reading import TooLarge
from matrixgen.source import read_design
from matrixgen.source.limits import LIMITS

TITLE = "the facts in this file, one per line"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("file", metavar="FILE", help="a .keys file")
    parser.add_argument(
        "--below",
        action="store_true",
        help="print them below the file's own lines, as git shows them",
    )


def run(arguments: argparse.Namespace) -> int:
    """Print the facts and return the exit status."""
    if arguments.below:
        return _below(Path(arguments.file))
    design, findings = read_design(arguments.file)
    if design is None:
        tell(findings, {})
        is_there = Path(arguments.file).is_file()
        return FINDINGS if is_there else BAD_USE
    print("\n".join(map(clean, fact_lines(design))))
    return FINE


def _below(path: Path) -> int:
    """Print the file and its facts; a file that does not read is no failure: git would give up."""
    try:
        data = read_argument(path, LIMITS.file_bytes)
    except TooLarge as error:
        print(f"{TITLE}\ncannot be read: {reason_of(error)}")
        return FINE
    except OSError as error:
        return complain(f"`{path}` cannot be read: {reason_of(error)}", *helps_of(error))
    design, findings = read_design(path, data.decode("utf-8", "surrogateescape"))
    if design:
        lines = fact_lines(design)
    else:
        wrong = next(found for found in findings if found.is_error)
        lines = [f"cannot be read: line {wrong.span.line}: {wrong.message}"]
    end = b"" if data.endswith(b"\n") or not data else b"\n"
    facts = "\n".join(["", TITLE, *map(clean, lines), ""])
    sys.stdout.flush()
    sys.stdout.buffer.write(data + end + facts.encode())
    return FINE
