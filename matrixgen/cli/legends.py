"""`matrixgen legends FILE [-o OUT]`: what stands on each keycap, at its true size."""

from __future__ import annotations

import argparse
from pathlib import PurePath

from matrixgen.cli.drawn_files import deliver
from matrixgen.cli.wanted import image_name, report
from matrixgen.emit.legends import PAPERS, legends_page, legends_svg, sheets_of
from matrixgen.failure import Failure
from matrixgen.jobs.examine import examine
from matrixgen.model import Keyboard
from matrixgen.model.prose import counted

SVG, PAGE = ".svg", ".html"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("file", metavar="FILE", help="a .keys file, finished or not, or -")
    parser.add_argument(
        "-o",
        "--out",
        metavar="OUT",
        help="the SVG to write (default: FILE's name with -legends.svg), or with --paper the page "
        "(-legends.html); - for standard output",
    )
    parser.add_argument(
        "--paper",
        choices=PAPERS,
        help="write a page to print instead, whose sheets are for such paper, at their true size",
    )


def run(arguments: argparse.Namespace) -> int:
    """Read the file, write the legends and return the exit status."""
    ending, other = (PAGE, SVG) if arguments.paper else (SVG, PAGE)
    if arguments.out and PurePath(arguments.out).suffix.lower() == other:
        raise _wrong_ending(arguments.out, ending)
    examined = examine(arguments.file)
    if examined.design is None:
        return report(examined, examined.findings)
    keyboard = examined.design.keyboard
    content, on = _drawn(keyboard, arguments.paper)
    caps, layers = counted(len(keyboard.keys), "cap"), counted(len(keyboard.layers), "layer")
    name = f"{image_name(arguments.file, examined.design)}-legends{ending}"
    return deliver(arguments.out, name, content, f"{caps}, {layers}{on}")


def _drawn(keyboard: Keyboard, paper: str | None) -> tuple[bytes, str]:
    """Return the file, and what is said of its paper."""
    if paper is None:
        return legends_svg(keyboard), ""
    sheets = sheets_of(keyboard, PAPERS[paper])
    page = legends_page(sheets, PAPERS[paper], keyboard.identity.product)
    return page, f", {counted(len(sheets), 'sheet')} of {paper}"


def _wrong_ending(out: str, ending: str) -> Failure:
    """Return what is wrong with the name of a file."""
    if ending == PAGE:
        return Failure(f"`{out}` is no page, which is what --paper writes", "end OUT in .html")
    help = "give --paper, or end OUT in .svg"
    return Failure(f"`{out}` is a page, and the legends are one SVG", help)
