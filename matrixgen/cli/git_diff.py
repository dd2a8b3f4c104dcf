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

from matrixgen.cli.complain import BAD_USE, FINE, complain
from matrixgen.cli.fit_to_print import clean
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
    old, new = words[1], words[4]
    if os.devnull in (old, new):
        print("new file" if old == os.devnull else "file removed")
    elif _said(old, new) == BAD_USE:
        _print_lines(Path(old), Path(new))
    print()
    return FINE


def _said(old: str, new: str) -> int:
    from matrixgen.cli.main import main  # only here: it is what runs this

    return main(["diff", "--", old, new])


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
