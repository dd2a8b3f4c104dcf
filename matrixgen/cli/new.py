"""`matrixgen new NAME`: a commented starter file that checks clean, or the plate of a drawing.

It never overwrites.
"""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence
from pathlib import Path

from matrixgen.boards import load_named
from matrixgen.boards.paths import is_path
from matrixgen.cli.complain import BAD_USE, complain
from matrixgen.cli.new_drawn import write_drawn, write_new
from matrixgen.cli.printer import Printer
from matrixgen.jobs.starter import NEEDED_PINS, starter
from matrixgen.model import Diagnostic
from matrixgen.model.reason import reason_of
from matrixgen.reach import within_reach
from matrixgen.reading import Refused

SUFFIX = ".keys"
DEFAULT_CONTROLLER = "stick-32u4"
_NAME = re.compile(r"[^\W_][\w .-]{0,39}")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("name", metavar="NAME", help="the keyboard's name; NAME.keys is written")
    parser.add_argument(
        "--controller",
        metavar="NAME|PATH",
        help="one of `matrixgen boards`, or your own profile "
        f"(default: {DEFAULT_CONTROLLER}; with --from, none)",
    )
    parser.add_argument(
        "--from",
        dest="drawing",
        metavar="DRAWING",
        help="a drawing of the plate, DXF or SVG, whose switches the file takes",
    )
    parser.add_argument(
        "--mirrored",
        action="store_true",
        help="with --from: the drawing shows the plate from behind, so turn it round",
    )


def run(arguments: argparse.Namespace) -> int:
    """Write the file, say where it is, and return the exit status."""
    path = Path(arguments.name.removesuffix(SUFFIX) + SUFFIX)
    name = path.name.removesuffix(SUFFIX)
    if not _NAME.fullmatch(name):
        help = (
            "use at most 40 letters, digits, spaces, dots and hyphens; begin with a letter or digit"
        )
        return complain(f"a keyboard cannot be called `{name}`", help)
    if arguments.mirrored and not arguments.drawing:
        return complain("`--mirrored` needs a drawing", "name it with `--from DRAWING`")
    named = arguments.controller or (None if arguments.drawing else DEFAULT_CONTROLLER)
    if named is None:
        return write_drawn(path, name, None, arguments)
    profile, findings = load_named(named)
    if profile is None:
        return _refuse_controller(named, findings)
    if len(profile.free_pins) < NEEDED_PINS and not arguments.drawing:
        few = f"`{profile.name}` has fewer than {NEEDED_PINS} pins without a second function"
        return complain(f"{few}, which the starter file needs")
    try:
        if profile.path:
            within_reach(Path(profile.path), path.parent)
    except Refused as refused:
        text = f"`{path}` cannot name `{profile.path}`: {reason_of(refused)}"
        return complain(text, *refused.helps)
    if arguments.drawing:
        return write_drawn(path, name, profile, arguments)
    return write_new(path, starter(name, path, profile))


def _refuse_controller(controller: str, findings: Sequence[Diagnostic]) -> int:
    if is_path(controller):
        print("\n\n".join(map(Printer().render, findings)))
        return BAD_USE
    return complain(findings[0].message, *findings[0].helps)
