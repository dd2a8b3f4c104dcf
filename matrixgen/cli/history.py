"""`matrixgen history FILE`: what each revision of a file changed, a line each, newest first."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.progress import progress_bar
from matrixgen.git import GitProblem
from matrixgen.jobs.history import History, Told, history_of

SCHEMA = "urn:matrixgen:history:1"
WIDTH, WORK, SUBJECT = 80, 10, 28
"""Letters of a line, of the work, and of a commit's subject."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument("file", metavar="FILE", help="a .keys file that is kept in git")
    parser.add_argument(
        "--since", metavar="DATE", help="show only later revisions; a date as git reads it"
    )
    parser.add_argument("--json", action="store_true", help="print the same as JSON")


def run(arguments: argparse.Namespace) -> int:
    """Print the history of a file and return the exit status."""
    history = history_of(Path(arguments.file), arguments.since)
    if isinstance(history, GitProblem):
        return complain(history.text, *history.helps)
    if not history.revisions:
        since = f" since {arguments.since}" if arguments.since else ""
        return complain(
            f"git has no revision of `{arguments.file}`{since}",
            "`git log --all --name-only` lists the files it has",
        )
    told = list(_with_bar(history))
    if arguments.json:
        print(json.dumps(as_json(arguments.file, told), indent=2))
    else:
        print("\n".join(map(line_of, told)))
    return FINE


def _with_bar(history: History) -> Iterator[Told]:
    """Yield what was told, with a bar where it takes long."""
    with progress_bar("comparing", len(history.revisions)) as progress:
        for told in history.told:
            yield told
            progress()


def line_of(told: Told) -> str:
    """Return a revision in a line of 80 columns: date, work, subject, what changed."""
    subject = _cut(clean(told.revision.subject), SUBJECT)
    said = told.headline
    for known in (f"{told.work} only: ", f"{told.work}: "):
        said = said.removeprefix(known)
    line = f"{told.revision.date}  {told.work:<{WORK}}  {subject:<{SUBJECT}}  "
    return line + _cut(clean(said), WIDTH - len(line))


def _cut(text: str, most: int) -> str:
    return text if len(text) <= most else f"{text[: most - 1]}…"


def as_json(file: str, told: list[Told]) -> dict[str, Any]:
    """Return a history as `templates/history.schema.json` has it."""
    return {
        "schema": SCHEMA,
        "file": file,
        "revisions": [
            {
                "commit": one.revision.commit,
                "date": one.revision.date,
                "subject": one.revision.subject,
                "path": one.revision.path,
                "work": one.work,
                "headline": one.headline,
            }
            for one in told
        ],
    }
