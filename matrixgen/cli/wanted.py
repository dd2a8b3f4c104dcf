"""Which of a file's controllers a command is for, how it names its files, and what was asked."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence
from pathlib import PurePath

from matrixgen.boards import Mounted
from matrixgen.cli.check import exit_status, for_people
from matrixgen.failure import Failure
from matrixgen.jobs.examine import STANDARD_INPUT, Examined
from matrixgen.jobs.images import Wanted
from matrixgen.model import Design, Diagnostic
from matrixgen.model.prose import quoted
from matrixgen.record import changed

BUILD = "--all builds for each of them, --controller NAME for one"
CHOOSE = "choose one with --controller NAME"


def asked_for(arguments: argparse.Namespace, mounted: Sequence[Mounted]) -> tuple[Mounted, ...]:
    """Return the controllers to build for; raises `Failure` where it is not clear which."""
    return tuple(mounted) if arguments.all else (the_one(arguments.controller, mounted, BUILD),)


def the_one(asked: str | None, mounted: Sequence[Mounted], help: str) -> Mounted:
    """Return the file's controller that is meant; raises `Failure` where it is not clear which.

    `help` is what to do where none is `asked` for and the file names several.
    """
    found = [one for one in mounted if asked in (None, one.profile.name)]
    if len(found) == 1:
        return found[0]
    names = quoted(one.profile.name for one in mounted) if mounted else "none"
    if asked is None:
        raise Failure(f"the file names several controllers: {names}", help)
    raise Failure(f"the file names no controller `{asked}`", f"it names {names}")


def drawn_for(arguments: argparse.Namespace, examined: Examined) -> Mounted | None:
    """Return the controller that a sheet is for, which is none where a file names none."""
    if not (examined.mounted or arguments.controller):
        return None
    return the_one(arguments.controller, examined.mounted, CHOOSE)


def image_name(file: str, design: Design) -> str:
    """Return the image's name without its ending: the file's own, or else the keyboard's."""
    if file != STANDARD_INPUT:
        return PurePath(file).stem
    return re.sub(r"\W+", "-", design.keyboard.identity.product).strip("-").lower() or "image"


def wanted_compiler(arguments: argparse.Namespace) -> Wanted:
    """Return the compiler that the command line of a build asks for."""
    compiler: Wanted = "none" if arguments.sources else arguments.compiler
    return compiler


def report(examined: Examined, findings: Sequence[Diagnostic]) -> int:
    """Print findings; return the exit status for them."""
    shown = changed(examined, findings=tuple(findings))
    print(for_people([shown]), file=sys.stderr)
    return exit_status([shown])
