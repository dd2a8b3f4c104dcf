"""`matrixgen diff OLD NEW`: what changed, and whether it needs the soldering iron."""

from __future__ import annotations

import argparse
import sys
from typing import Any

from matrixgen.cli.complain import BAD_USE, FINDINGS, FINE
from matrixgen.cli.diff_text import Shown, text
from matrixgen.cli.json_report import print_report
from matrixgen.cli.printer import tell, wants_colour
from matrixgen.compare import KINDS, Change, Comparison
from matrixgen.failure import Failure
from matrixgen.jobs.compare import compared
from matrixgen.jobs.examine import STANDARD_INPUT, Examined
from matrixgen.jobs.sides import side_of, side_since
from matrixgen.record import changed, values_of

SCHEMA_ID = "urn:matrixgen:diff:1"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    side = "a .keys file, - for standard input, or REV:PATH of the git repository"
    parser.add_argument("old", metavar="OLD", help=side)
    parser.add_argument("new", metavar="NEW", nargs="?", help="the same; with --since, none")
    parser.add_argument(
        "--since",
        metavar="REV",
        help="compare OLD, as it is now, with what it was at a revision, such as the tag that you "
        "set when you last soldered, or before a day, as YYYY-MM-DD",
    )
    parser.add_argument(
        "--only",
        choices=KINDS,
        help="show only these changes, and exit with 1 if there are any",
    )
    parser.add_argument("--json", action="store_true", help="print the changes as JSON")


def run(arguments: argparse.Namespace) -> int:
    """Print what changed, and return 0 for nothing, 1 for changes, 2 for what cannot be read."""
    _refuse_misuse(arguments)
    sides = _sides(arguments)
    if not all(side.design for side in sides):
        tell_unread(sides)
        return BAD_USE
    old, new = sides
    found = compared(old, new)
    chosen = only(found, arguments.only) if arguments.only else found
    if arguments.json:
        asked = old.path if arguments.since else arguments.old
        report = as_json(chosen, (asked, old), (arguments.new or arguments.old, new))
        print_report(report)
    else:
        shown = Shown(old, new, colour=wants_colour(sys.stdout))
        print("\n".join(text(chosen, shown, arguments.only)))
    return FINDINGS if chosen.changes else FINE


def _refuse_misuse(arguments: argparse.Namespace) -> None:
    """Raise `Failure` where there are too few files, or too many."""
    if arguments.since is None and arguments.new is None:
        raise Failure("one file is compared with nothing", "name NEW too, or give --since REV")
    if arguments.since is not None and arguments.new is not None:
        raise Failure("--since takes one file", "leave out NEW: it is the file as it is now")
    if arguments.old == arguments.new == STANDARD_INPUT:
        raise Failure("standard input is one file", "name the other one")


def _sides(arguments: argparse.Namespace) -> list[Examined]:
    """Return both sides; raises `Failure` where git cannot give one of them."""
    old, then = arguments.old, arguments.since
    first = side_of(old) if then is None else side_since(then, old)
    return [first, side_of(arguments.new or old)]


def tell_unread(sides: list[Examined]) -> None:
    """Print why a side does not read: the findings of those sides alone."""
    unread = [side for side in sides if side.design is None]
    texts = {path: text for side in unread for path, text in side.texts.items()}
    tell([found for side in unread for found in side.errors], texts)


def only(found: Comparison, kind: str) -> Comparison:
    """Return the changes of one kind."""
    return changed(found, changes=tuple(one for one in found.changes if one.kind == kind))


def as_json(
    found: Comparison, old: tuple[str, Examined], new: tuple[str, Examined]
) -> dict[str, Any]:
    """Return two files compared, each with its word, as `templates/diff.schema.json` has it."""
    return {
        "schema": SCHEMA_ID,
        "old": old[0],
        "new": new[0],
        "findings": {"old": _findings(old[1]), "new": _findings(new[1])},
        "kind": found.kind,
        "headline": found.headline,
        "needs_image": any(change.needs_image for change in found.changes),
        "changes": [_change(change) for change in found.changes],
        "bench": [step.text for step in found.steps],
    }


def _findings(side: Examined) -> dict[str, Any]:
    """Return what a check finds in a side: how many, and what is missing from it."""
    errors = len(side.errors)
    warnings = len(side.findings) - errors
    return {"errors": errors, "warnings": warnings, "missing": list(side.missing)}


def _change(change: Change) -> dict[str, Any]:
    own = ("kind", "slug", "text", "keys", "layer", "old", "new", "is_guess", "needs_image")
    return values_of(change, *own)
