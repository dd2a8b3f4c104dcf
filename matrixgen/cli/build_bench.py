"""`matrixgen build [FILE] --bench`: an image that is a serial port and tells which pins meet."""

from __future__ import annotations

import argparse
from collections.abc import Sequence

from matrixgen.boards import Profile, load_named
from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.outcome import bench_lines, compiling, folders_of, write_folders
from matrixgen.cli.wanted import (
    asked_for,
    image_name,
    report,
    wanted_compiler,
)
from matrixgen.jobs.bench import build_bench
from matrixgen.jobs.examine import examine

BARE = "`--controller NAME` builds for a bare board, without a file"


def run(arguments: argparse.Namespace) -> int:
    """Build a bench for each controller that is asked for, write the folders, return the status.

    Nothing but the controllers is asked of a file: a keyboard is on the bench before it is done.
    """
    if arguments.file is None:
        return _for_bare_board(arguments)
    examined = examine(arguments.file)
    if examined.design is None or not examined.mounted:
        if examined.errors:
            return report(examined, examined.findings)
        return complain("the file names no controller, so there is no board to build for", BARE)
    wanted = asked_for(arguments, examined.mounted)
    name = f"{image_name(arguments.file, examined.design)}-bench"
    return _build(arguments, name, [(one.profile, one.light_pins) for one in wanted])


def _for_bare_board(arguments: argparse.Namespace) -> int:
    if arguments.controller is None:
        return complain("neither a file nor a controller is named", BARE)
    profile, findings = load_named(arguments.controller)
    if profile is None:
        return complain(findings[0].message, *findings[0].helps)
    return _build(arguments, f"{profile.name}-bench", [(profile, frozenset())])


def _build(
    arguments: argparse.Namespace, name: str, boards: Sequence[tuple[Profile, frozenset[str]]]
) -> int:
    """Build for each controller, and leave those of its pins alone that have a light."""
    compiler = wanted_compiler(arguments)
    with compiling():
        made = [build_bench(one, name, compiler, left_alone) for one, left_alone in boards]
    folders = folders_of(arguments, name, [profile for profile, _ in boards])
    write_folders(arguments, folders, [bench.files for bench in made])
    for bench, out in zip(made, folders, strict=True):
        print("\n".join(map(clean, bench_lines(bench, out))))
    return FINE
