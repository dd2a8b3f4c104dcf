"""`matrixgen legends FILE [-o OUT.svg]`: what stands on each keycap, at its true size."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.ours import why_not_ours
from matrixgen.cli.wanted import image_name, report
from matrixgen.cli.write_file import write_bytes
from matrixgen.emit.legends import MOST_LAYERS, legends_svg
from matrixgen.jobs.examine import examine
from matrixgen.model.prose import counted

STANDARD_OUTPUT = "-"


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
    content = legends_svg(keyboard)
    if arguments.out == STANDARD_OUTPUT:
        sys.stdout.flush()
        sys.stdout.buffer.write(content)
        return FINE
    name = image_name(arguments.file, examined.design)
    path = Path(arguments.out or f"{name}-legends.svg")
    reason = why_not_ours(path)
    if reason:
        return complain(f"`{path}` {reason}", "name another one with -o")
    if reason := write_bytes(path, content):
        return complain(f"`{path}` cannot be written: {reason}", "name another one with -o")
    print(f"{clean(str(path))}: {len(content) / 1000:.0f} kB")
    layers = counted(len(keyboard.layers), "layer")
    shown = f"the first {MOST_LAYERS} of " if len(keyboard.layers) > MOST_LAYERS else ""
    print(f"{counted(len(keyboard.keys), 'cap')}, {shown}{layers}")
    return FINE
