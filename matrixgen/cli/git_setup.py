"""`matrixgen git-setup`: git merges and compares .keys files here by what they say."""

from __future__ import annotations

import argparse

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.write_file import replace
from matrixgen.git.setup import Setup, apply_settings, planned
from matrixgen.model.reason import reason_of


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("--undo", action="store_true", help="remove what was set")


def run(arguments: argparse.Namespace) -> int:
    """Print what is changed, change it and return the exit status."""
    setup = planned(undo=arguments.undo)
    if not setup.lines:
        print(
            "nothing to change: this repository is " + ("as before" if arguments.undo else "set up")
        )
        return FINE
    print("\n".join(map(clean, setup.lines)), flush=True)
    apply_settings(setup.settings)
    try:
        _write(setup)
    except OSError as error:
        apply_settings(dict.fromkeys(setup.settings) if not arguments.undo else {})
        why = f"`{setup.path}` cannot be written: {reason_of(error)}"
        return complain(why, "nothing was changed")
    return FINE


def _write(setup: Setup) -> None:
    """Write the attributes; raises `OSError`."""
    if setup.before == setup.after:
        return
    if setup.after is None:
        setup.path.unlink()
        return
    setup.path.parent.mkdir(exist_ok=True)
    before, after = (
        None if text is None else text.encode("utf-8", "surrogateescape")
        for text in (setup.before, setup.after)
    )
    replace(setup.path, after or b"", before)
