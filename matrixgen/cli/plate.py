"""`matrixgen plate FILE [-o OUT]`: the plate as a drawing to cut, or as a solid to print."""

from __future__ import annotations

import argparse
import sys
from math import isfinite
from pathlib import Path

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.ours import why_not_ours
from matrixgen.cli.wanted import image_name, report
from matrixgen.cli.write_file import write_bytes
from matrixgen.jobs.examine import examine
from matrixgen.jobs.plate import (
    PRINTED_MM,
    WRITERS,
    PlateOptions,
    missing_package,
    plate_file,
    summary_of,
)
from matrixgen.model.prose import quoted

STANDARD_OUTPUT = "-"
MOST_KERF_MM, LEAST_THICK_MM, MOST_THICK_MM = 1.0, 1.0, 20.0


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("file", metavar="FILE", help="a .keys file, finished or not, or -")
    parser.add_argument(
        "-o",
        "--out",
        metavar="OUT",
        help="the file to write, by its ending: .dxf or .svg to cut, .3mf or .stl to print "
        "(default: FILE's name with .dxf); - writes SVG to standard output",
    )
    parser.add_argument(
        "--kerf",
        type=_kerf,
        default=0.0,
        metavar="MM",
        help="how wide the cut is, where the cutter does not allow for it (default: 0, as metal "
        "cutters want it)",
    )
    parser.add_argument(
        "--r12", action="store_true", help="write DXF of release 12, for old programs"
    )
    parser.add_argument(
        "--thickness",
        type=_thickness,
        default=PRINTED_MM,
        metavar="MM",
        help=f"how thick a plate to print is (default: {PRINTED_MM:g})",
    )


def run(arguments: argparse.Namespace) -> int:
    """Read the file, write its plate and return the exit status.

    A file that reads is drawn, whatever is wrong with it; what was found is reported.
    """
    examined = examine(arguments.file)
    if examined.design is None:
        return report(examined, examined.findings)
    to_output = arguments.out == STANDARD_OUTPUT
    path = Path(arguments.out or f"{image_name(arguments.file, examined.design)}.dxf")
    kind = ".svg" if to_output else path.suffix.lower()
    if kind not in WRITERS:
        return complain(
            f"`{path}` ends in no kind of file that a plate is written to",
            f"end it in {quoted(WRITERS, 'or')}",
        )
    if missing := missing_package(kind):
        return complain(
            f"to write {kind} takes the Python package `{missing}`, which is not installed",
            "install it with `pip install 'matrixgen[plate]'`; .svg needs nothing else",
        )
    if not to_output and (reason := why_not_ours(path)):
        return complain(f"`{path}` {reason}", "name another one with -o")
    if examined.findings:
        report(examined, examined.findings)
    options = PlateOptions(kerf=arguments.kerf, is_r12=arguments.r12, thickness=arguments.thickness)
    keyboard = examined.design.keyboard
    content = plate_file(keyboard, kind, options)
    if to_output:
        sys.stdout.flush()
        sys.stdout.buffer.write(content)
        return FINE
    if reason := write_bytes(path, content):
        return complain(f"`{path}` cannot be written: {reason}", "name another one with -o")
    print(f"{clean(str(path))}: {len(content) / 1000:.0f} kB")
    print(summary_of(keyboard))
    return FINE


def _kerf(text: str) -> float:
    return _millimetres(text, 0.0, MOST_KERF_MM)


def _thickness(text: str) -> float:
    return _millimetres(text, LEAST_THICK_MM, MOST_THICK_MM)


def _millimetres(text: str, least: float, most: float) -> float:
    """Return a number of millimetres; raise what `argparse` reports where it is none."""
    try:
        value = float(text)
    except ValueError:
        value = float("nan")
    if not (isfinite(value) and least <= value <= most):
        raise argparse.ArgumentTypeError(f"`{text}` is no length from {least:g} to {most:g} mm")
    return value
