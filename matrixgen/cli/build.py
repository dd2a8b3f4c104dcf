"""`matrixgen build FILE [-o OUT]`: firmware, pin table, image and manifest, all or nothing.

`--bench` builds another firmware for the same controllers (`build_bench.py`).
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path

from matrixgen.cli.complain import FINDINGS, FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.outcome import build_lines, compiling, folders_of, notes, write_folders
from matrixgen.cli.progress import counted_seconds
from matrixgen.cli.wanted import (
    asked_for,
    image_name,
    report,
    wanted_compiler,
)
from matrixgen.jobs.build import Built, build_mounted
from matrixgen.jobs.examine import Examined, examine


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument(
        "file", nargs="?", metavar="FILE", help="a .keys file, or - for stdin; --bench needs none"
    )
    parser.add_argument(
        "-o",
        "--out",
        metavar="OUT",
        help="the folder to write (default: one here, named after FILE)",
    )
    which = parser.add_mutually_exclusive_group()
    which.add_argument(
        "--all",
        action="store_true",
        help="build for every controller of the file, each in a folder of its name under OUT",
    )
    which.add_argument(
        "--controller",
        metavar="NAME",
        help="build for this one of the file's controllers; without FILE, for any controller",
    )
    parser.add_argument(
        "--bench",
        action="store_true",
        help="build the bench firmware: a serial port that reports which pins are connected",
    )
    what = parser.add_mutually_exclusive_group()
    what.add_argument(
        "--compiler",
        choices=("gcc", "clang"),
        help="GCC for the chip, or Clang from the package ziglang (default: the first one found)",
    )
    what.add_argument(
        "--sources",
        action="store_true",
        help="write everything except the image; needs no compiler",
    )


def run(arguments: argparse.Namespace) -> int:
    """Check the file, build it, write the folders and return the exit status."""
    if arguments.bench:
        from matrixgen.cli import build_bench  # only here: most builds are of keyboards

        return build_bench.run(arguments)
    if arguments.file is None:
        return complain("no file is named", "`--bench --controller NAME` builds without one")
    examined = examine(arguments.file).as_built()
    if not examined.is_sound or examined.design is None:
        return report(examined, examined.findings)
    name = image_name(arguments.file, examined.design)
    wanted = asked_for(arguments, examined.mounted)
    compiler, source = wanted_compiler(arguments), examined.design.source
    with compiling(), counted_seconds("building"):
        made = [build_mounted(one, source, name, compiler) for one in wanted]
    return _deliver(
        arguments, examined, made, folders_of(arguments, name, [one.profile for one in wanted])
    )


def _deliver(
    arguments: argparse.Namespace,
    examined: Examined,
    made: Sequence[Built],
    folders: Sequence[Path],
) -> int:
    """Write what was built, if all of it could be, and say so; return the exit status."""
    of_builds = [found for built in made for found in built.findings]
    contents = [built.files for built in made]
    if not of_builds:
        write_folders(arguments, folders, contents)
    findings = (*examined.findings, *of_builds)
    if findings:
        report(examined, findings)
    if of_builds:
        return FINDINGS
    print("\n".join(map(clean, _report(arguments, made, folders))))
    return FINE


def _report(
    arguments: argparse.Namespace, made: Sequence[Built], folders: Sequence[Path]
) -> list[str]:
    """Return what to print of the builds, each line once."""
    lines = [
        line for built, out in zip(made, folders, strict=True) for line in build_lines(built, out)
    ]
    for built in made:
        lines += notes(built)
    return list(dict.fromkeys(lines))
