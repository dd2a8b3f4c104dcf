"""`matrixgen load FILE|IMAGE`: an image into a board, written, read back and started."""

from __future__ import annotations

import argparse
import shlex
from pathlib import PurePath

from matrixgen.boards import Mounted
from matrixgen.cli.complain import BAD_USE, FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.load_talk import TerminalTalk
from matrixgen.cli.parser import old_option
from matrixgen.cli.wanted import report, the_one
from matrixgen.failure import Failure
from matrixgen.jobs.examine import Examined, examine
from matrixgen.jobs.images import CompilerRefused
from matrixgen.jobs.load import (
    BoardPlace,
    ImageToLoad,
    built_image,
    image_of_file,
    load,
    speaks_to_hand,
)
from matrixgen.load.by_hand import factory_commands
from matrixgen.load.drives import drives
from matrixgen.load.failure import AGAIN
from matrixgen.load.image_file import is_image
from matrixgen.load.keyboards import appeared, factory_loaders, keyboards
from matrixgen.model.reason import reason_of
from matrixgen.ports.listing import serial_ports

INTERRUPTED = 130
"""What shells give for a program ended by Ctrl+C."""

TAKE_CARE = """\
Take care: a load replaces the firmware in the chip; the keyboard that was there is gone. The boot
loader itself is never written. An RP2040's is in the chip's ROM: no load can break such a board.
An AVR board's is in its flash, which is not written either: if a load is interrupted, load again.
If that flash is overwritten in another way, or if the board came without a boot loader, only a
programmer helps. Serial boot loaders have been tested as a stand-in on this computer, and drives
as folders; no real board has been loaded yet."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.formatter_class = argparse.RawDescriptionHelpFormatter
    parser.epilog = TAKE_CARE
    parser.add_argument(
        "file", nargs="?", metavar="FILE|IMAGE", help="a .keys file, built first; or a .hex or .uf2"
    )
    parser.add_argument("--port", metavar="PORT", help="the board's serial port, such as COM3")
    parser.add_argument(
        "--mount", dest="drive", metavar="PATH", help="the folder where its drive is mounted"
    )
    old_option(parser, "--drive", "drive")
    parser.add_argument(
        "--controller",
        metavar="NAME",
        help="one of the controllers that the file names; for an image, the one it was built for",
    )
    parser.add_argument("--list", action="store_true", help="show the ports and drives there are")
    parser.add_argument(
        "--yes",
        action="store_true",
        help="do not ask: take the only port there is for the board's, otherwise stop",
    )


def run(arguments: argparse.Namespace) -> int:
    """Build if need be, load, and return the exit status."""
    if arguments.list:
        print("\n".join(map(clean, listing())))
        return FINE
    if arguments.file is None:
        return complain("nothing to load is named", "give a .keys file, or an image .hex or .uf2")
    try:
        image = _image_to_load(arguments)
        return image if isinstance(image, int) else _load(arguments, image)
    except KeyboardInterrupt:
        complain("interrupted", AGAIN)
        return INTERRUPTED


def listing() -> list[str]:
    """Return a line for each port, drive and factory boot loader that is there now."""
    lines = [
        f"port   {port.shown}{': the bench firmware' if port.is_bench else ''}"
        for port in serial_ports()
    ]
    lines += [f"drive  {drive.shown}" for drive in drives()]
    lines += [
        f"usb    {found.name} ({found.ids}): a factory's boot loader, for `dfu-programmer`"
        for found in factory_loaders()
    ]
    return lines or ["no USB serial port, and no drive of a boot loader"]


def _load(arguments: argparse.Namespace, image: ImageToLoad) -> int:
    way = BoardPlace(arguments.port, arguments.drive)
    if speaks_to_hand(image, way):
        return _by_hand(arguments.file, image)
    before = keyboards()
    load(TerminalTalk(asks=not arguments.yes), image, way)
    if found := appeared(before):
        print(clean(f"a keyboard has appeared: {found.name} ({found.ids})"))
    return FINE


def _by_hand(file: str, image: ImageToLoad) -> int:
    """Print what to type for a boot loader that this program does not speak with."""
    print(
        f"matrixgen does not load `{image.profile.name}` itself: its factory boot loader speaks "
        "DFU.\nStart that (hold HWB low while you press reset), and type:\n"
    )
    file_name = file
    if not is_image(file):
        print(clean(f"    matrixgen build {shlex.quote(file)} --controller {image.profile.name}"))
        file_name = str(PurePath(PurePath(file).stem) / image.name)
    commands = factory_commands(image.profile.chip, file_name)
    print("\n".join(f"    {clean(line)}" for line in commands))
    print(
        "\nthen plug the board in again. If its boot loader is another one that speaks AVR109,\n"
        "give its port with --port PORT."
    )
    return BAD_USE


def _image_to_load(arguments: argparse.Namespace) -> ImageToLoad | int:
    """Return what is to be loaded, or the exit status where it is said why there is nothing."""
    if is_image(arguments.file):
        return image_of_file(arguments.file, arguments.controller)
    examined = examine(arguments.file).as_built()
    status = report(examined, examined.findings) if examined.findings else FINE
    if not examined.is_sound or examined.design is None:
        return status
    mounted = the_one(arguments.controller, examined.mounted, "give --controller NAME")
    return _built(arguments, examined, mounted)


def _built(
    arguments: argparse.Namespace, examined: Examined, mounted: Mounted
) -> ImageToLoad | int:
    assert examined.design is not None
    name = PurePath(arguments.file).stem
    try:
        built = built_image(mounted, examined.design.source, name)
    except CompilerRefused as refused:
        title = refused.failure.compiler.title
        raise Failure(f"{title} refused the firmware", "try `build`") from refused
    except OSError as error:
        raise Failure(f"the compiler could not be run: {reason_of(error)}") from error
    return built if isinstance(built, ImageToLoad) else report(examined, built.findings)
