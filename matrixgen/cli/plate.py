"""`matrixgen plate FILE [-o OUT]`: the plate as a drawing to cut, or as a solid to print."""

from __future__ import annotations

import argparse
from math import isfinite
from pathlib import Path

from matrixgen.cli.complain import complain
from matrixgen.cli.drawn_files import deliver
from matrixgen.cli.wanted import image_name, report
from matrixgen.cli.write_file import STANDARD_OUTPUT
from matrixgen.failure import Failure
from matrixgen.jobs.examine import examine
from matrixgen.jobs.plate import (
    WRITERS,
    PlateOptions,
    division_for,
    missing_package,
    plate_file,
    summary_of,
    test_piece,
    why_undivided,
)
from matrixgen.model.plate import THICKNESS_MM
from matrixgen.model.prose import quoted
from matrixgen.plate.division import WHOLE, Undivided
from matrixgen.plate.outline import is_too_fine
from matrixgen.source import LIMITS

SOLID = (".3mf", ".stl")
MOST_KERF_MM = 1.0
LEAST_BED_MM, MOST_BED_MM = 50.0, 2000.0


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
        metavar="MM",
        help=f"how thick a plate to print is (default: as the file says, or {THICKNESS_MM:g})",
    )
    parser.add_argument(
        "--bed",
        type=_bed,
        metavar="WxH",
        help="divide a plate to print into parts that have room on a printer's bed, such as "
        "235x235",
    )
    parser.add_argument(
        "--test-piece",
        action="store_true",
        help="write two cut-outs and a stabiliser alone, to be tried with your switches first",
    )


def run(arguments: argparse.Namespace) -> int:
    """Read the file, write its plate and return the exit status.

    A file that reads is drawn, whatever is wrong with it; what was found is reported.
    """
    examined = examine(arguments.file)
    if examined.design is None:
        return report(examined, examined.findings)
    path = Path(arguments.out or f"{image_name(arguments.file, examined.design)}.dxf")
    kind = ".svg" if arguments.out == STANDARD_OUTPUT else path.suffix.lower()
    _refuse_misuse(arguments, path, kind)
    if examined.findings:
        report(examined, examined.findings)
    keyboard = examined.design.keyboard
    if arguments.test_piece:
        keyboard = test_piece(keyboard)
    if is_too_fine(keyboard.plate, arguments.kerf):
        return complain(
            f"the plate's outline has a notch that a cut of {arguments.kerf:g} mm has no room in",
            "move the corners of `outline from` apart there, or draw it for a narrower cut",
        )
    division = division_for(keyboard, arguments.bed) if arguments.bed else WHOLE
    if isinstance(division, Undivided):
        return complain(
            f"this plate cannot be divided for such a bed: {why_undivided(division)}",
            "leave a gap between two groups of keys there, or print on a larger bed",
        )
    options = PlateOptions(
        kerf=arguments.kerf,
        is_r12=arguments.r12,
        thickness=arguments.thickness,
        division=division,
    )
    content = plate_file(keyboard, kind, options)
    return deliver(arguments.out, str(path), content, summary_of(keyboard, division))


def _refuse_misuse(arguments: argparse.Namespace, path: Path, kind: str) -> None:
    """Raise `Failure` where no such file can be written."""
    if kind not in WRITERS:
        raise Failure(
            f"`{path}` ends in no kind of file that a plate is written to",
            f"end it in {quoted(WRITERS, 'or')}",
        )
    if arguments.r12 and kind != ".dxf":
        raise Failure(f"--r12 is a form of DXF, and not of {kind}", "end OUT in .dxf")
    if arguments.thickness is not None and kind not in SOLID:
        raise Failure(f"{kind} has no thickness", "end OUT in .3mf or .stl")
    if arguments.bed and kind not in SOLID:
        raise Failure(f"--bed divides a plate to print, not {kind}", "end OUT in .3mf or .stl")
    if missing := missing_package(kind):
        raise Failure(
            f"to write {kind} takes the Python package `{missing}`, which is not installed",
            "install it with `pip install 'matrixgen[plate]'`; .svg needs nothing else",
        )


def _kerf(text: str) -> float:
    return _millimetres(text, 0.0, MOST_KERF_MM)


def _thickness(text: str) -> float:
    return _millimetres(text, LIMITS.least_thickness, LIMITS.thickness)


def _bed(text: str) -> tuple[float, float]:
    wide, cross, deep = text.partition("x")
    if not cross:
        raise argparse.ArgumentTypeError(f"`{text}` is no size: write it as in 235x235")
    width, depth = (_millimetres(one, LEAST_BED_MM, MOST_BED_MM) for one in (wide, deep))
    return width, depth


def _millimetres(text: str, least: float, most: float) -> float:
    """Return a number of millimetres; raise what `argparse` reports where it is none."""
    try:
        value = float(text)
    except ValueError:
        value = float("nan")
    if not (isfinite(value) and least <= value <= most):
        raise argparse.ArgumentTypeError(f"`{text}` is no length from {least:g} to {most:g} mm")
    return value
