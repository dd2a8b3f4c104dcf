"""`matrixgen git-diff PATH OLD ...`: `matrixgen diff` as git runs a program that compares.

Git gives the path, then file, hash and mode of the old and of the new version, and for a renamed
file its new path and how alike they are. It gives up at any exit status but 0.
"""

from __future__ import annotations

import argparse
import os
import sys
from difflib import unified_diff
from pathlib import Path

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.diff import tell_unread
from matrixgen.cli.diff_text import Shown, text
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.printer import wants_colour_of_git
from matrixgen.jobs.compare import compared
from matrixgen.jobs.sides import side_of_git
from matrixgen.model.reason import reason_of
from matrixgen.reach import read_argument
from matrixgen.source.limits import LIMITS


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("words", nargs="+", metavar="WORD", help="the arguments that git gives")


def run(arguments: argparse.Namespace) -> int:
    """Print what changed in one file, and return 0."""
    words = arguments.words
    if len(words) == 1:
        print(f"{clean(words[0])}: not merged yet")
        return FINE
    if len(words) < 7:
        return complain("git runs this by itself", "`matrixgen diff OLD NEW` compares two files")
    renamed = f" -> {clean(words[7])}" if len(words) > 7 else ""
    print(f"{clean(words[0])}{renamed}", flush=True)
    if os.devnull in (words[1], words[4]):
        print("new file" if words[1] == os.devnull else "file removed")
    else:
        _compare(words)
    print()
    return FINE


def _compare(words: list[str]) -> None:
    """Print what changed from one version to the other, or else which lines did."""
    path, old, old_blob, _, new, new_blob, _, *renamed = words
    try:
        sides = [
            side_of_git(path, old, old_blob, is_old=True),
            side_of_git(renamed[0] if renamed else path, new, new_blob, is_old=False),
        ]
    except OSError as error:
        print(clean(f"one of the two cannot be read: {reason_of(error)}"))
        return
    if not all(side.design for side in sides):
        tell_unread(sides)
        _print_lines(Path(old), Path(new))
        return
    old_side, new_side = sides
    shown = Shown(old_side, new_side, colour=wants_colour_of_git(sys.stdout))
    print("\n".join(text(compared(old_side, new_side), shown)))


def _print_lines(old: Path, new: Path) -> None:
    """Print the lines that changed, of files that cannot be compared otherwise."""
    try:
        sides = [read_argument(path, LIMITS.file_bytes) for path in (old, new)]
    except OSError as error:
        print(clean(f"one of the two cannot be read: {reason_of(error)}"))
        return
    one, two = (side.decode("utf-8", "replace").splitlines() for side in sides)
    lines = unified_diff(one, two, "old", "new", lineterm="")
    sys.stdout.writelines(f"{clean(line)}\n" for line in lines)
