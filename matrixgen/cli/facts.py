"""`matrixgen facts FILE`: what a file says, one fact a line, for programs that compare lines."""

from __future__ import annotations

import argparse
from pathlib import Path

from matrixgen.cli.complain import BAD_USE, FINDINGS, FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import tell
from matrixgen.cli.write_file import put_out
from matrixgen.compare.fact_lines import fact_lines
from matrixgen.model.reason import helps_of, reason_of
from matrixgen.reach import read_argument
from matrixgen.source import read_design
from matrixgen.source.limits import LIMITS


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("file", metavar="FILE", help="a .keys file")
    parser.add_argument("--below", action="store_true", help=argparse.SUPPRESS)


def run(arguments: argparse.Namespace) -> int:
    """Print the facts and return the exit status."""
    if arguments.below:
        return _as_it_is(Path(arguments.file))
    design, findings = read_design(arguments.file)
    if design is None:
        tell(findings, {})
        is_there = Path(arguments.file).is_file()
        return FINDINGS if is_there else BAD_USE
    print("\n".join(map(clean, fact_lines(design))))
    return FINE


def _as_it_is(path: Path) -> int:
    """Print the file itself: what a repository that was set up by an earlier version asks for."""
    try:
        data = read_argument(path, LIMITS.file_bytes)
    except OSError as error:
        return complain(f"`{path}` cannot be read: {reason_of(error)}", *helps_of(error))
    put_out(data)
    return FINE
