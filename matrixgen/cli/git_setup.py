"""`matrixgen git-setup`: git merges and compares .keys files here by what they say."""

from __future__ import annotations

import argparse
from pathlib import Path

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.write_file import write_bytes
from matrixgen.git import GitProblem
from matrixgen.git.setup import Setup, apply_settings, planned
from matrixgen.model.reason import reason_of


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("--undo", action="store_true", help="remove what was set")


def run(arguments: argparse.Namespace) -> int:
    """Print what is changed, change it and return the exit status."""
    setup = planned(undo=arguments.undo)
    if isinstance(setup, GitProblem):
        return complain(setup.text, *setup.helps)
    if not setup.lines:
        print(
            "nothing to change: this repository is " + ("as before" if arguments.undo else "set up")
        )
        return FINE
    print("\n".join(map(clean, setup.lines)), flush=True)
    problem = apply_settings(setup.settings)
    if problem:
        return complain(problem.text, *problem.helps)
    reason = _write(setup)
    if reason:
        apply_settings(dict.fromkeys(setup.settings) if not arguments.undo else {})
        return complain(f"`{setup.path}` cannot be written: {reason}", "nothing was changed")
    return FINE


def _write(setup: Setup) -> str | None:
    """Write the attributes; return why that is not possible, or None."""
    if setup.before == setup.after:
        return None
    try:
        if setup.after is None:
            Path(setup.path).unlink()
            return None
        setup.path.parent.mkdir(exist_ok=True)
    except OSError as error:
        return reason_of(error)
    before, after = (
        None if text is None else text.encode("utf-8", "surrogateescape")
        for text in (setup.before, setup.after)
    )
    return write_bytes(setup.path, after or b"", before)
