"""`matrixgen build FILE -o OUT`: firmware, pin table, image and manifest, all or nothing."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence
from pathlib import Path, PurePath

from matrixgen.cli.build_report import notes, told
from matrixgen.cli.check import exit_status, for_people
from matrixgen.cli.complain import complain
from matrixgen.emit.output_folder import (
    FolderRefused,
    must_be_ours,
    must_hold_no_build,
    write_folder,
)
from matrixgen.jobs.build import build_keyboard
from matrixgen.jobs.examine import SHOWN_STANDARD_INPUT, Examined, Variant, examine
from matrixgen.jobs.images import CompilerMissing, CompilerRefused
from matrixgen.model import Diagnostic
from matrixgen.model.reason import reason_of
from matrixgen.model.record import changed


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("file", metavar="FILE", help="a .keys file, or - for stdin")
    parser.add_argument(
        "-o", "--out", required=True, metavar="OUT", help="the folder to write, as a whole"
    )
    which = parser.add_mutually_exclusive_group()
    which.add_argument(
        "--all",
        action="store_true",
        help="for every controller that the file names, each in a folder of its name under OUT",
    )
    which.add_argument(
        "--controller", metavar="NAME", help="for this one of the controllers that the file names"
    )
    parser.add_argument(
        "--compiler",
        choices=("gcc", "clang", "none"),
        help="GCC for the chip, the ziglang package's Clang, or sources only "
        "(default: the first at hand)",
    )


def run(arguments: argparse.Namespace) -> int:
    """Check the file, build it, write the folders and return the exit status."""
    examined = examine(arguments.file)
    if not examined.is_sound:
        return _report(examined, examined.findings)
    variants = _asked_for(arguments, examined.variants)
    if not variants:
        return _which_controller(arguments, examined.variants)
    try:
        of_builds, lines = _build(arguments, examined, variants)
    except FolderRefused as refused:
        return complain(str(refused), "name another folder with -o")
    except CompilerMissing as missing:
        return complain(str(missing), missing.help)
    except CompilerRefused as refused:
        return _compiler_refused(refused)
    except OSError as error:
        return complain(f"the compiler could not be run: {reason_of(error)}")
    findings = (*examined.findings, *of_builds)
    if findings:
        _report(examined, findings)
    if not of_builds:
        print("\n".join(lines))
    return exit_status(of_builds)


def _asked_for(arguments: argparse.Namespace, variants: Sequence[Variant]) -> tuple[Variant, ...]:
    """Return the variants to build; none where the command line does not say which."""
    if arguments.all or (len(variants) == 1 and arguments.controller is None):
        return tuple(variants)
    named = (one for one in variants if arguments.controller == one.profile.name)
    return tuple(named)


def _which_controller(arguments: argparse.Namespace, variants: Sequence[Variant]) -> int:
    names = ", ".join(f"`{one.profile.name}`" for one in variants)
    if arguments.controller is None:
        help = "--all builds for each of them, --controller NAME for one"
        return complain(f"the file names several controllers: {names}", help)
    return complain(f"the file names no controller `{arguments.controller}`", f"it names {names}")


def _build(
    arguments: argparse.Namespace, examined: Examined, variants: Sequence[Variant]
) -> tuple[tuple[Diagnostic, ...], list[str]]:
    """Build for each variant, and write only when all of them could be built.

    Returns what stands against it, and else what to tell of it.
    """
    name = _image_name(examined)
    made = [build_keyboard(one.keyboard, one.profile, name, arguments.compiler) for one in variants]
    if of_builds := tuple(found for built in made for found in built.findings):
        return of_builds, []
    folders = _folders(arguments, variants)
    lines: dict[str, None] = {}
    for built, out in zip(made, folders, strict=True):
        write_folder(Path(out), built.files)
        lines |= dict.fromkeys(told(built, out))
    for built in made:
        lines |= dict.fromkeys(notes(built, compiler_was_wanted=arguments.compiler is None))
    return (), list(lines)


def _folders(arguments: argparse.Namespace, variants: Sequence[Variant]) -> list[PurePath]:
    """Return where each variant's files go, once it is sure that all of them may."""
    out = PurePath(arguments.out)
    if arguments.all:
        must_hold_no_build(Path(out))
    folders = [out / one.profile.name if arguments.all else out for one in variants]
    for folder in folders:
        must_be_ours(Path(folder))
    return folders


def _image_name(examined: Examined) -> str:
    """Return the image's name without its ending: the file's own, or else the keyboard's."""
    if examined.path != SHOWN_STANDARD_INPUT:
        return PurePath(examined.path).stem
    name = examined.variants[0].keyboard.identity.name.text
    return re.sub(r"\W+", "-", name).strip("-").lower() or "image"


def _report(examined: Examined, findings: Sequence[Diagnostic]) -> int:
    print(for_people([changed(examined, findings=tuple(findings))]), file=sys.stderr)
    return exit_status(findings)


def _compiler_refused(refused: CompilerRefused) -> int:
    failure = refused.failure
    print(failure.output.rstrip(), file=sys.stderr)
    return complain(
        f"{failure.compiler.title} refused the firmware, and nothing was written",
        "this is a mistake of matrixgen or of the compiler, not of your file: please report it",
    )
