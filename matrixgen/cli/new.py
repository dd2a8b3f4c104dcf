"""`matrixgen new NAME`: a commented starter file that checks clean. It never overwrites."""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence
from pathlib import Path

from matrixgen.boards import Pin, Profile, load_named, usual_diode
from matrixgen.boards.paths import as_written, is_path
from matrixgen.cli.complain import BAD_USE, FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import Printer
from matrixgen.jobs.examine import examine_text
from matrixgen.model import Axis, Diagnostic, SourceText
from matrixgen.model.reason import reason_of
from matrixgen.reach import within_reach
from matrixgen.reading import Refused
from matrixgen.record import Record

SUFFIX = ".keys"
DEFAULT_CONTROLLER = "stick-32u4"
_NAME = re.compile(r"[^\W_][\w .-]{0,39}")

ROWS = (("1", "2", "3", "Backspace"), ("4", "5", "6", "Enter"), ("7", "8", "9", "More"))
"""The starter's keys: every one but the last types what its name says."""


class Wire(Record):
    """One line of the starter's wiring; `shown` is its keys as the file lists them."""

    axis: Axis
    name: str
    pin: Pin
    shown: str


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("name", metavar="NAME", help="the keyboard's name; NAME.keys is written")
    parser.add_argument(
        "--controller",
        metavar="NAME|PATH",
        default=DEFAULT_CONTROLLER,
        help=f"one of `matrixgen boards`, or your own profile; without it {DEFAULT_CONTROLLER}",
    )


def run(arguments: argparse.Namespace) -> int:
    """Write the file, say where it is, and return the exit status."""
    path = Path(arguments.name.removesuffix(SUFFIX) + SUFFIX)
    name = path.name.removesuffix(SUFFIX)
    if not _NAME.fullmatch(name):
        help = "up to 40 letters, digits, blanks, dots and hyphens, with a letter or digit first"
        return complain(f"a keyboard cannot be called `{name}`", help)
    profile, findings = load_named(arguments.controller)
    if profile is None:
        return _refuse_controller(arguments.controller, findings)
    needed = len(ROWS) + len(ROWS[0])
    if len(profile.free_pins) < needed:
        return complain(f"the starter needs {needed} free pins, more than `{profile.name}` has")
    try:
        if profile.path:
            within_reach(Path(profile.path), path.parent)
    except Refused as refused:
        text = f"`{path}` cannot name `{profile.path}`: {reason_of(refused)}"
        return complain(text, *refused.helps)
    return _write(path, starter(name, path, profile, _sure_diode(path, profile)))


def _refuse_controller(controller: str, findings: Sequence[Diagnostic]) -> int:
    if is_path(controller):
        print("\n\n".join(map(Printer().render, findings)))
        return BAD_USE
    return complain(findings[0].message, *findings[0].helps)


def _sure_diode(path: Path, profile: Profile) -> str:
    """Return the usual diode, or one that drops less where keys may not read low with it."""
    from matrixgen.circuit.over_supply import LevelsOverSupply
    from matrixgen.model.contact import matrix_of

    usual = usual_diode()
    text = starter(path.stem, path, profile, usual.name)
    for mounted in examine_text(str(path), text, path.parent).mounted:
        return LevelsOverSupply(mounted, matrix_of(mounted.keyboard), usual).diode_to_take.name
    return usual.name


def starter(name: str, path: Path, profile: Profile, diode: str) -> str:
    """Return the text of a starter file for `path`, on the free pins of a controller."""
    from matrixgen.emit.jinja import environment
    from matrixgen.format.formatted import formatted

    controller = profile.name
    if profile.path:
        controller = as_written(profile.path, path.parent)
    text = (
        environment()
        .get_template("starter.keys.j2")
        .render(
            name=name,
            file_name=path.name,
            controller=controller,
            diode=diode,
            rows=[" ".join(row) for row in ROWS],
            lines=_wires(profile),
        )
    )
    return formatted(SourceText(str(path), text)).text or text


def _wires(profile: Profile) -> list[Wire]:
    pins = iter(profile.free_pins)
    runs = (f"{keys[0]} to {keys[-1]}" for keys in ROWS)
    rows = [Wire("row", f"r{n}", next(pins), run) for n, run in enumerate(runs)]
    columns = [
        Wire("column", f"c{n}", next(pins), " ".join(keys))
        for n, keys in enumerate(zip(*ROWS, strict=True))
    ]
    return rows + columns


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
