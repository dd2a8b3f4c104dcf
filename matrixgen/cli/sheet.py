"""`matrixgen sheet FILE [-o OUT.html]`: the bench sheet, or with --svg its pictures alone.

With --watch nothing is written: see `sheet_watch.py`.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Mapping
from pathlib import Path, PurePath

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.drawn_files import write_all
from matrixgen.cli.progress import counted_seconds
from matrixgen.cli.wanted import drawn_for, image_name, report
from matrixgen.cli.write_file import STANDARD_OUTPUT, put_out
from matrixgen.emit.sheet import Sheet, page
from matrixgen.jobs.examine import examine
from matrixgen.jobs.sheet import pictures, sheet_of_examined
from matrixgen.model import Design
from matrixgen.model.prose import counted, quoted

HIGHEST_PORT, DIGITS = 65535, 5


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument(
        "file", metavar="FILE", help="a .keys file, finished or not, or - for stdin"
    )
    parser.add_argument(
        "-o",
        "--out",
        metavar="OUT",
        help="the page to write (default: FILE's name with .html); with --svg, what the names of "
        "the drawings begin with; - for standard output",
    )
    parser.add_argument("--svg", action="store_true", help="write only the drawings, one file each")
    parser.add_argument(
        "--drawing",
        metavar="NAME",
        help="write only this drawing, such as back or front-base, as SVG",
    )
    parser.add_argument(
        "--controller",
        metavar="NAME",
        help="draw it for this one of the file's controllers",
    )
    parser.add_argument(
        "--watch",
        action="store_true",
        help="write nothing: serve the page to a browser on this computer, at the address that is "
        "printed, and draw it again at each save of FILE, until Ctrl+C",
    )
    parser.add_argument(
        "--port",
        metavar="N",
        type=port_number,
        help="with --watch, the port to serve it on (default: a free one); ticks on the page are "
        "kept for the next time only on the same port",
    )


def run(arguments: argparse.Namespace) -> int:
    """Check the file, draw it, write the page or the pictures and return the exit status.

    A file that reads is drawn, whatever is wrong with it: the page marks and lists what was found.
    """
    if arguments.watch or arguments.port is not None:
        return _watch(arguments)
    examined = examine(arguments.file)
    if examined.design is None:
        return report(examined, examined.findings)
    mounted = drawn_for(arguments, examined)
    with counted_seconds("drawing"):
        sheet = sheet_of_examined(examined, examined.design, mounted)
    if examined.findings:
        report(examined, examined.findings)
    files = _files(arguments, examined.design, sheet)
    if not files:
        names = quoted(ending.removesuffix(".svg") for ending in pictures(sheet))
        return complain(f"there is no drawing `{arguments.drawing}`", f"there is {names}")
    if arguments.out == STANDARD_OUTPUT:
        return _print(sheet, files)
    return write_all(files, _summary(sheet))


def _watch(arguments: argparse.Namespace) -> int:
    if not arguments.watch:
        return complain("`--port` is for the page of `--watch`")
    if arguments.out or arguments.svg or arguments.drawing:
        return complain("`--watch` writes no file", "leave out -o, --svg and --drawing")
    from matrixgen.cli.sheet_watch import watch  # only here: what is drawn once needs no server

    return watch(arguments, _summary)


def port_number(text: str) -> int:
    """Return the number of a port that a server may be asked to use; raises `ArgumentTypeError`."""
    if not (
        text.isascii()
        and text.isdigit()
        and 1 <= int(text[:DIGITS]) <= HIGHEST_PORT
        and len(text) <= DIGITS
    ):
        raise argparse.ArgumentTypeError(f"`{text}` is not a port: 1 to {HIGHEST_PORT}")
    return int(text)


def _files(arguments: argparse.Namespace, design: Design, sheet: Sheet) -> Mapping[Path, bytes]:
    """Return what to write, by where it goes."""
    name = arguments.out or image_name(arguments.file, design)
    if not (arguments.svg or arguments.drawing):
        return {Path(arguments.out or f"{name}.html"): page(sheet)}
    beginning = PurePath(name)
    drawn = {
        Path(beginning.parent / f"{beginning.name}-{ending}"): content
        for ending, content in pictures(sheet).items()
        if arguments.drawing in (None, ending.removesuffix(".svg"))
    }
    if arguments.drawing and arguments.out:
        return {Path(arguments.out): content for content in drawn.values()}
    return drawn


def _print(sheet: Sheet, files: Mapping[Path, bytes]) -> int:
    """Write one file to standard output, and how much it shows to standard error."""
    if len(files) > 1:
        names = quoted(ending.removesuffix(".svg") for ending in pictures(sheet))
        return complain("standard output takes one drawing", f"name it with --drawing: {names}")
    (content,) = files.values()
    put_out(content)
    print(_summary(sheet), file=sys.stderr)
    return FINE


def _found(sheet: Sheet) -> str:
    """Return how many findings the page lists; empty where there are none."""
    many = Counter(one.severity for one in sheet.findings)
    counts = [counted(many[kind], kind) for kind in ("error", "warning") if many[kind]]
    more = f", {sheet.unlisted} more not" if sheet.unlisted else ""
    return f"; {' and '.join(counts)}, marked and listed on the page{more}" if counts else ""


def _summary(sheet: Sheet) -> str:
    parts = [
        counted(len(sheet.keyboard.keys), "key"),
        counted(len(sheet.layers), "layer"),
    ]
    if sheet.wires:
        metres = sum(wire.metres for wire in sheet.wires)
        parts += [
            f"{counted(len(sheet.wires), 'wire')} of {metres:.1f} m in all",
            counted(len(sheet.jumpers), "jumper"),
        ]
    return ", ".join(parts) + _found(sheet)
