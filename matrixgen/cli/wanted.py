"""Which of a file's controllers a command is for, how it names its files, and what was asked."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence
from pathlib import PurePath

from matrixgen.boards import Mounted
from matrixgen.cli.check import exit_status, for_people
from matrixgen.cli.complain import complain
from matrixgen.jobs.examine import STANDARD_INPUT, Examined
from matrixgen.jobs.images import Wanted
from matrixgen.model import Design, Diagnostic
from matrixgen.model.prose import quoted
from matrixgen.record import changed

CHOOSE = "choose one with --controller NAME"


def asked_for(arguments: argparse.Namespace, mounted: Sequence[Mounted]) -> tuple[Mounted, ...]:
    """Return the controllers to build for; none where the command line does not say which."""
    if arguments.all or (len(mounted) == 1 and arguments.controller is None):
        return tuple(mounted)
    return tuple(one for one in mounted if arguments.controller == one.profile.name)


def which_controller(
    arguments: argparse.Namespace,
    mounted: Sequence[Mounted],
    help: str = "--all builds for each of them, --controller NAME for one",
) -> int:
    """Say which controllers there are to choose from; return the exit status."""
    return complain(*no_choice(arguments.controller, mounted, help))


def no_choice(asked: str | None, mounted: Sequence[Mounted], help: str) -> tuple[str, str]:
    """Return why it is not clear which of a file's controllers is meant, and what helps.

    `help` is what to do where none is `asked` for and the file names several.
    """
    names = quoted(one.profile.name for one in mounted) if mounted else "none"
    if asked is None:
        return f"the file names several controllers: {names}", help
    return f"the file names no controller `{asked}`", f"it names {names}"


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
