"""`matrixgen legends FILE [-o OUT.svg]`: what stands on each keycap, at its true size."""

from __future__ import annotations

import argparse

from matrixgen.cli.drawn_files import deliver
from matrixgen.cli.wanted import image_name, report
from matrixgen.emit.legends import MOST_LAYERS, legends_svg
from matrixgen.jobs.examine import examine
from matrixgen.model.prose import counted


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("file", metavar="FILE", help="a .keys file, finished or not, or -")
    parser.add_argument(
        "-o",
        "--out",
        metavar="OUT",
        help="the SVG to write (default: FILE's name with -legends.svg); - for standard output",
    )


def run(arguments: argparse.Namespace) -> int:
    """Read the file, write the legends and return the exit status."""
    examined = examine(arguments.file)
    if examined.design is None:
        return report(examined, examined.findings)
    keyboard = examined.design.keyboard
    layers = counted(len(keyboard.layers), "layer")
    shown = f"the first {MOST_LAYERS} of " if len(keyboard.layers) > MOST_LAYERS else ""
    summary = f"{counted(len(keyboard.keys), 'cap')}, {shown}{layers}"
    name = f"{image_name(arguments.file, examined.design)}-legends.svg"
    return deliver(arguments.out, name, legends_svg(keyboard), summary)
