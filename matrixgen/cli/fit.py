"""`matrixgen fit FILE`: which controllers and matrices a layout fits, and a wiring for it."""

from __future__ import annotations

import argparse

from matrixgen.cli.check import exit_status
from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_json import report_json
from matrixgen.cli.fit_tables import report
from matrixgen.cli.fit_to_print import clean, clean_lines
from matrixgen.cli.fit_wiring import write_wiring
from matrixgen.cli.json_report import print_report
from matrixgen.cli.printer import tell
from matrixgen.cli.progress import progress_bar
from matrixgen.fit.search import USUAL_STEPS
from matrixgen.fit.shapes import smaller_sizes
from matrixgen.jobs.examine import Examined, examine
from matrixgen.jobs.fit import Fit, fit_of

OVERLAP = "keys-overlap"


def _count(text: str) -> int:
    """Return a number of rows or columns; for argparse."""
    if not text.isdecimal() or int(text) < 1:
        raise argparse.ArgumentTypeError(f"`{text}` is not a number of wires, 1 or more")
    return int(text)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("file", metavar="FILE", help="a .keys file with a plate, or - for stdin")
    parser.add_argument("--rows", type=_count, metavar="N", help="use this number of rows")
    parser.add_argument("--columns", type=_count, metavar="N", help="use this number of columns")
    parser.add_argument(
        "--controller",
        metavar="NAME|PATH",
        help="give each wire a pin of this controller, which --write puts into the file (default: "
        "the controllers that the file names)",
    )
    parser.add_argument("--write", action="store_true", help="put the wiring into the file")
    parser.add_argument(
        "--replace",
        action="store_true",
        help="with --write, replace the wiring in the file; wires that stay keep their pins, "
        "colours and comments, and their names unless that would leave a number out",
    )
    parser.add_argument("--json", action="store_true", help="print the same as JSON")


def run(arguments: argparse.Namespace) -> int:
    """Print the tables, or print or write a wiring, and return the exit status."""
    if arguments.replace and not arguments.write:
        return complain("--replace needs --write", "give both, or neither")
    examined = examine(arguments.file)
    if examined.design is None or not examined.is_sound:
        tell(examined.errors, examined.texts)  # what fits a wrong file would not fit the right one
        return exit_status([examined])
    _tell_overlaps(examined)
    fit = fit_of(examined)
    if arguments.write or arguments.rows or arguments.columns or arguments.controller:
        with progress_bar("laying out", USUAL_STEPS) as progress:
            return write_wiring(fit, examined.path, arguments, progress)
    return _tables(fit, examined.path, as_json=arguments.json)


def _tell_overlaps(examined: Examined) -> None:
    """Print which keys lie on others: there hops are shorter than they can be."""
    overlaps = [found for found in examined.findings if found.slug == OVERLAP]
    if overlaps:
        tell(overlaps, examined.texts)


def _tables(fit: Fit, path: str, *, as_json: bool) -> int:
    keys = len(fit.design.keyboard.keys)
    sizes = len(smaller_sizes(keys, sum(fit.fitting.size))) + 1
    with progress_bar("laying out", sizes * USUAL_STEPS) as progress:
        tables = fit.tables(progress)
    if as_json:
        print_report(report_json(path, tables))
    else:
        print("\n".join(map(clean_lines, report(clean(path), tables))))
    return FINE
