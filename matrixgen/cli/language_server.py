"""`matrixgen language-server`: serve an editor by the Language Server Protocol, over stdio."""

from __future__ import annotations

import argparse
import gc
import sys
from importlib.util import find_spec

from matrixgen.cli.complain import complain


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument(
        "--stdio",
        action="store_true",
        help="use standard input and output, as is done in any case: some editors say so",
    )


def run(arguments: argparse.Namespace) -> int:
    """Serve until the editor ends, and return the exit status."""
    if find_spec("pygls") is None:
        return complain(
            "the language server needs the Python package `pygls`, which is not installed",
            "`pip install 'matrixgen[editor]'` installs it",
        )
    from matrixgen.editor.protocol import serve

    gc.enable()  # it lives long
    stdin, stdout = sys.stdin.buffer, sys.stdout.buffer
    sys.stdout = sys.stderr  # whatever is printed is no message
    return serve(stdin, stdout)
