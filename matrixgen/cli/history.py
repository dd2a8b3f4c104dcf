"""`matrixgen history FILE`: what each revision of a file changed, a line each, newest first."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.diff_text import COLOURS, PLAIN
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.json_report import print_report
from matrixgen.cli.printer import is_screen, wants_colour_of_git
from matrixgen.cli.progress import progress_bar
from matrixgen.cli.wrap import wrapped
from matrixgen.compare import KINDS
from matrixgen.jobs.history import History, HistoryEntry, history_of
from matrixgen.model.prose import listed
from matrixgen.record import values_of

SCHEMA_ID = "urn:matrixgen:history:1"
WIDTH, HASH, WORK, SUBJECT = 80, 7, 10, 22
"""Letters of a line, of a commit's name as git abbreviates it, of the work, of its subject."""

OVER = 21
"""Letters before what a revision goes over: below its work."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("file", metavar="FILE", help="a .keys file that is kept in git")
    parser.add_argument(
        "--since",
        metavar="REV",
        help="only what came after this revision, such as a tag, or after a date as git reads it",
    )
    parser.add_argument(
        "--only",
        choices=KINDS,
        help="only revisions with this work; with `solder` also those that do not read",
    )
    parser.add_argument("--json", action="store_true", help="print the same as JSON")


def run(arguments: argparse.Namespace) -> int:
    """Print the history of a file and return the exit status."""
    history = history_of(Path(arguments.file), arguments.since)
    if not history.revisions:
        since = f" since {arguments.since}" if arguments.since else ""
        return complain(
            f"git has no revision of `{arguments.file}`{since}",
            "`git log --all --name-only` lists the files it has",
        )
    entries = _chosen(list(_with_bar(history)), arguments.only)
    if arguments.json:
        print_report(as_json(arguments.file, entries))
    elif not entries:
        print(f"no change to {arguments.only}")
    else:
        painted = wants_colour_of_git(sys.stdout)
        is_cut = is_screen(sys.stdout)
        lines = (line for one in entries for line in lines_of(one, colour=painted, is_cut=is_cut))
        print("\n".join(lines))
    return FINE


def _chosen(entries: list[HistoryEntry], only: str | None) -> list[HistoryEntry]:
    """Return the revisions with one kind of work.

    What does not read, and what no later revision goes over, may be anything: it is no less than
    the most work.
    """
    if only is None:
        return entries
    known = {over.commit for one in entries for over in one.over}
    unknown = {
        one.revision.commit
        for one in entries
        if one.work == "unreadable" and one.revision.commit not in known
    }
    return [
        one
        for one in entries
        if one.work == only or (only == KINDS[0] and one.revision.commit in unknown)
    ]


def _with_bar(history: History) -> Iterator[HistoryEntry]:
    """Yield the entries, with a bar where it takes long."""
    with progress_bar("comparing", len(history.revisions)) as progress:
        for entry in history.entries:
            yield entry
            progress()


def lines_of(entry: HistoryEntry, *, colour: bool = False, is_cut: bool = True) -> Iterator[str]:
    """Yield a revision in a line: date, commit, work, subject, what changed; 80 columns if cut.

    Below it are those that it goes over.
    """
    subject = clean(entry.revision.subject)
    subject = _cut(subject, SUBJECT) if is_cut else subject
    said = entry.headline
    for known in (f"{entry.work} only: ", f"{entry.work}: "):
        said = said.removeprefix(known)
    begin = f"{entry.revision.date}  {entry.revision.commit[:HASH]}  "
    work, rest = f"{entry.work:<{WORK}}", f"  {subject:<{SUBJECT}}  "
    room = WIDTH - len(begin) - len(work) - len(rest)
    painted = f"{COLOURS[entry.work]}{work}{PLAIN}" if colour and entry.work in COLOURS else work
    yield begin + painted + rest + (_cut(clean(said), room) if is_cut else clean(said))
    if entry.over:
        names = listed([one.commit[:HASH] for one in entry.over])
        does = "does" if len(entry.over) == 1 else "do"
        yield from wrapped(f"over {names}, which {does} not read", " " * OVER)


def _cut(text: str, most: int) -> str:
    return text if len(text) <= most else f"{text[: most - 1]}…"


def as_json(file: str, entries: list[HistoryEntry]) -> dict[str, Any]:
    """Return a history as `templates/history.schema.json` has it."""
    return {
        "schema": SCHEMA_ID,
        "file": file,
        "revisions": [
            {
                **values_of(one.revision, "commit", "date", "subject", "path"),
                **values_of(one, "work", "headline"),
                "over": [over.commit for over in one.over],
            }
            for one in entries
        ],
    }
