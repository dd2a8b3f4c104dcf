"""`matrixgen completion SHELL`: what a shell runs to complete a command line with Tab."""

from __future__ import annotations

import argparse
import sys

from matrixgen.cli.complain import FINE
from matrixgen.resources import resource

SHELLS = ("bash", "zsh", "fish")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument(
        "shell",
        choices=SHELLS,
        help="the shell: write `source <(matrixgen completion bash)` into ~/.bashrc, the same with "
        "zsh into ~/.zshrc, or `matrixgen completion fish | source` into config.fish",
    )
    parser.add_argument("words", nargs="*", metavar="WORD", help=argparse.SUPPRESS)


def run(arguments: argparse.Namespace) -> int:
    """Print the script, or what the last of some words may become; return the exit status."""
    if not arguments.words:
        path = resource("templates") / "completion" / f"matrixgen.{arguments.shell}"
        sys.stdout.write(path.read_text("utf-8"))
        return FINE
    from matrixgen.cli.candidates import candidates

    words = arguments.words[1:]  # the first one is the program's name
    found = candidates(words or [""])
    print("\n".join(one for one in found if one.isprintable()))
    return FINE
