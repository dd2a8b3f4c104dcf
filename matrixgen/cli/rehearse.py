"""`matrixgen rehearse FILE`: what the keyboard would do, from a script or on the terminal."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from matrixgen.cli.check import exit_status
from matrixgen.cli.complain import BAD_USE, FINE, complain
from matrixgen.cli.printer import tell
from matrixgen.failure import Failure
from matrixgen.jobs.examine import SHOWN_STANDARD_INPUT, STANDARD_INPUT, examine
from matrixgen.model import Keyboard
from matrixgen.model.reason import reason_of
from matrixgen.reach import read_argument
from matrixgen.reading import at_most
from matrixgen.rehearse.happening import Happening
from matrixgen.rehearse.play import length_ms, play
from matrixgen.rehearse.script import Step, read_script

MOST_BYTES = 1_000_000
"""Bytes of a script, at most: as many as a `.keys` file may have."""


LONG_MS = 20_000
"""How long a script must take to be worth a progress bar: half a second of computing, or more."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("file", metavar="FILE", help="a .keys file, which may be unfinished")
    parser.add_argument(
        "--script",
        metavar="STEPS",
        help="a file of steps, or - for standard input (the default if that is not a terminal): "
        "`+Key` presses a key of the plate, `-Key` releases it, `Key` taps it, `wait 200` lets 200 "
        "ms pass, `#` starts a comment",
    )
    parser.add_argument("--json", action="store_true", help="print what happens as JSON")


def run(arguments: argparse.Namespace) -> int:
    """Play a script, or let the user type, and return the exit status."""
    script: str | None = arguments.script
    if script is None and not (sys.stdin and sys.stdin.isatty()):
        script = STANDARD_INPUT
    if arguments.file == STANDARD_INPUT and script in (None, STANDARD_INPUT):
        return complain("standard input is the file, so it cannot be the script", "name the script")
    examined = examine(arguments.file)
    if examined.design is None or not examined.is_sound:
        tell(examined.errors, examined.texts)
        return exit_status([examined])
    keyboard = examined.design.keyboard
    if script is None:
        return _on_terminal(keyboard, as_json=arguments.json)
    return _play(arguments.file, keyboard, script, as_json=arguments.json)


def _on_terminal(keyboard: Keyboard, *, as_json: bool) -> int:
    if as_json or not sys.stdout.isatty():
        why = "the plate is drawn for a person at a terminal"
        return complain(why, "`--script FILE` plays a script instead, or pipe one in")
    from matrixgen.cli.rehearse_terminal import rehearse_on_terminal

    return rehearse_on_terminal(keyboard)


def _play(file: str, keyboard: Keyboard, script: str, *, as_json: bool) -> int:
    text = _read(script)
    shown = SHOWN_STANDARD_INPUT if script == STANDARD_INPUT else script
    steps, findings = read_script(shown, text, keyboard)
    if findings:
        tell(findings, {shown: text})
        return BAD_USE
    found = _played(keyboard, steps)
    if as_json:
        from matrixgen.cli.json_report import print_report
        from matrixgen.cli.rehearse_json import as_json as json_of

        print_report(json_of(file, found))
        return FINE
    from matrixgen.cli.rehearse_text import lines

    for line in lines(found):
        print(line)
    return FINE


def _played(keyboard: Keyboard, steps: list[Step]) -> list[Happening]:
    """Return what happens, with a progress bar where it may take long."""
    length = length_ms(keyboard, steps)
    if length < LONG_MS:
        return list(play(keyboard, steps))
    from matrixgen.cli.progress import progress_bar

    with progress_bar("rehearsing", length) as progress:
        return list(play(keyboard, steps, progress))


def _read(script: str) -> str:
    """Return a script's text; raises `Failure` where it cannot be had."""
    try:
        if script == STANDARD_INPUT:
            if sys.stdin is None:  # as after `<&-` in a shell
                raise Failure("the script cannot be read: standard input is closed")
            data = at_most(sys.stdin.buffer.read(MOST_BYTES + 1), MOST_BYTES)
        else:
            data = read_argument(Path(script), MOST_BYTES)
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        raise Failure(f"the script cannot be read: `{script}` is not UTF-8 text") from None
    except OSError as error:
        raise Failure(f"the script cannot be read: `{script}`: {reason_of(error)}") from None
    return text
