"""`matrixgen new NAME`: a commented starter file that checks clean. It never overwrites."""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence
from pathlib import Path

from matrixgen.boards import load_named
from matrixgen.boards.paths import is_path
from matrixgen.cli.complain import BAD_USE, FINE, complain
from matrixgen.cli.fit_to_print import clean
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
        default=DEFAULT_CONTROLLER,
        help=f"one of `matrixgen boards`, or your own profile (default: {DEFAULT_CONTROLLER})",
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
    profile, findings = load_named(arguments.controller)
    if profile is None:
        return _refuse_controller(arguments.controller, findings)
    if len(profile.free_pins) < NEEDED_PINS:
        few = f"`{profile.name}` has fewer than {NEEDED_PINS} pins without a second function"
        return complain(f"{few}, which the starter file needs")
    try:
        if profile.path:
            within_reach(Path(profile.path), path.parent)
    except Refused as refused:
        text = f"`{path}` cannot name `{profile.path}`: {reason_of(refused)}"
        return complain(text, *refused.helps)
    return _write(path, starter(name, path, profile))


def _refuse_controller(controller: str, findings: Sequence[Diagnostic]) -> int:
    if is_path(controller):
        print("\n\n".join(map(Printer().render, findings)))
        return BAD_USE
    return complain(findings[0].message, *findings[0].helps)


def _write(path: Path, text: str) -> int:
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        return complain(f"`{path}` is there already", "choose another name, or move that file")
    except OSError as error:
        return complain(f"`{path}` cannot be written: {reason_of(error)}")
    print(f"wrote {clean(str(path))}")
    return FINE
