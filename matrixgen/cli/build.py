"""`matrixgen build FILE -o OUT`: firmware, pin table, image and manifest, all or nothing."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence
from pathlib import Path, PurePath

from matrixgen.cli.check import exit_status, for_people
from matrixgen.cli.complain import FINE, complain
from matrixgen.emit.output_folder import FolderRefused, write_folder
from matrixgen.jobs.build import Built, CompilerRefused, build_keyboard
from matrixgen.jobs.examine import SHOWN_STANDARD_INPUT, Examined, examine
from matrixgen.model import Diagnostic
from matrixgen.model.reason import reason_of
from matrixgen.model.record import changed
from matrixgen.toolchain import Compiler, CompilerKind, find_compiler

NO_COMPILER = 'no compiler was found, so there is no image: `pip install "matrixgen[compiler]"`'
TEST_IDS = (
    "the file names no USB ids, so it gets 1209:0001, which is for private testing only; "
    "`usb VENDOR:PRODUCT` in the `keyboard` block names your own"
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("file", metavar="FILE", help="a .keys file, or - for stdin")
    parser.add_argument(
        "-o", "--out", required=True, metavar="OUT", help="the folder to write, as a whole"
    )
    parser.add_argument(
        "--compiler",
        choices=("gcc", "clang", "none"),
        help="avr-gcc, the ziglang package's Clang, or sources only (default: the first at hand)",
    )


def run(arguments: argparse.Namespace) -> int:
    """Check the file, build it, write the folder and return the exit status."""
    examined = examine(arguments.file)
    if not examined.is_sound:
        return _report(examined, examined.findings)
    try:
        compiler = _compiler(arguments.compiler)
        built = _build(examined, _image_name(examined), compiler)
        if not built.files:
            return _report(examined, (*examined.findings, *built.findings))
        write_folder(Path(arguments.out), built.files)
    except FolderRefused as refused:
        return complain(str(refused), "name another folder with -o")
    except CompilerMissing as missing:
        return complain(str(missing), missing.help)
    except CompilerRefused as refused:
        return _compiler_refused(refused)
    except OSError as error:
        return complain(f"the compiler could not be run: {reason_of(error)}")
    if examined.findings:
        _report(examined, examined.findings)
    print(told(built, PurePath(arguments.out), compiler is None and arguments.compiler is None))
    return FINE


class CompilerMissing(Exception):
    """The compiler that the user asked for is not on this machine."""

    def __init__(self, kind: str) -> None:
        self.help = {
            "gcc": "install gcc-avr and binutils-avr, or leave --compiler out",
            "clang": '`pip install "matrixgen[compiler]"`',
        }[kind]
        super().__init__(f"there is no {kind} for this chip on this machine")


def _compiler(wanted: str | None) -> Compiler | None:
    """Return the compiler that was asked for, or the first at hand, or None for sources only."""
    if wanted == "none":
        return None
    kind: CompilerKind | None = wanted if wanted in ("gcc", "clang") else None  # type: ignore[assignment]
    found = find_compiler(kind)
    if found is None and kind is not None:
        raise CompilerMissing(kind)
    return found


def _build(examined: Examined, name: str, compiler: Compiler | None) -> Built:
    assert examined.keyboard is not None and examined.profile is not None  # it is sound
    return build_keyboard(examined.keyboard, examined.profile, name, compiler)


def _image_name(examined: Examined) -> str:
    """Return the image's name without its ending: the file's own, or else the keyboard's."""
    assert examined.keyboard is not None
    if examined.path == SHOWN_STANDARD_INPUT:
        return (
            re.sub(r"\W+", "-", examined.keyboard.identity.name.text).strip("-").lower() or "image"
        )
    return PurePath(examined.path).stem


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


def told(built: Built, out: PurePath, no_compiler: bool) -> str:
    """Return what a build says of itself: each thing it made, and what to mind."""
    assert built.table is not None
    lines = []
    if image := built.image:
        flash = f"{image.flash_used:,} of {image.flash_available:,} bytes of flash"
        ram = f"{image.ram_used:,} of {image.ram_available:,} bytes of RAM"
        lines.append(f"{out / image.file}: {flash}, {ram} ({image.compiler})")
    wires, spare = len(built.table.rows) + len(built.table.columns), len(built.table.spare)
    lines.append(f"{out / 'pins.md'}: {wires} wires, {spare} pins to spare")
    lines.append(f"{out / 'firmware'}: the C sources, and a Makefile")
    if no_compiler:
        lines.append(f"note: {NO_COMPILER}")
    if built.table.keyboard.identity.vendor_id is None:
        lines.append(f"note: {TEST_IDS}")
    return "\n".join(lines)
