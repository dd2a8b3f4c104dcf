"""`matrixgen help TOPIC`: the language's reference by its sections, without a network."""

from __future__ import annotations

import argparse
import re
import shutil
import sys

from matrixgen.cli.commands import COMMANDS
from matrixgen.cli.complain import FINE, complain
from matrixgen.model.prose import quoted
from matrixgen.resources import resource
from matrixgen.similar import similar_help

REFERENCE = "README.md"
"""In the folder `grammar`."""

INTRODUCED = "\n`matrixgen help TOPIC` prints a section of the language's reference:\n"

TITLE = re.compile(r"(#+) (.+)")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument(
        "topic",
        nargs="*",
        metavar="TOPIC",
        help="a section of the language's reference, such as wiring, or a command "
        "(default: list all)",
    )


def run(arguments: argparse.Namespace) -> int:
    """Print a section, a command's options or the topics; return the exit status."""
    sections = topics()
    if not arguments.topic:
        from matrixgen.cli.main import overview

        print(overview(), INTRODUCED, *(f"  {topic}" for topic in sections), sep="\n")
        return FINE
    topic = " ".join(arguments.topic).casefold()
    found = [topic] if topic in sections else [one for one in sections if topic in one]
    if not found and topic not in COMMANDS:
        found = _with_row(topic, sections)
    if len(found) == 1:
        show(sections[found[0]])
        return FINE
    if topic in COMMANDS:
        from matrixgen.cli.main import main

        return main([topic, "--help"])
    if found:
        help = f"it may be one of {quoted(found)}"
    else:
        help = similar_help(topic, (*sections, *COMMANDS)) or "`matrixgen help` lists the topics"
    return complain(f"there is no topic `{topic}`", help)


def topics() -> dict[str, str]:
    """Return the sections of the reference, each with those below it, by their titles.

    A line that begins with `#` in a block of code is no title.
    """
    lines = (resource("grammar") / REFERENCE).read_text("utf-8").splitlines()
    titles = _titles(lines)
    found = {}
    for place, (start, depth, title) in enumerate(titles):
        ends = (line for line, other, _ in titles[place + 1 :] if other <= depth)
        found[title] = "\n".join(lines[start : next(ends, len(lines))]).rstrip()
    return found


def _with_row(word: str, sections: dict[str, str]) -> list[str]:
    """Return the smallest section that has a row for a statement, if one has."""
    row = re.compile(rf"\| `{re.escape(word)}\b")
    found = [title for title, text in sections.items() if row.search(text)]
    return [min(found, key=lambda title: len(sections[title]))] if found else []


def _titles(lines: list[str]) -> list[tuple[int, int, str]]:
    """Return line, depth and text of each title but the first, which is the whole page's."""
    found, is_code = [], False
    for number, line in enumerate(lines):
        is_code ^= line.lstrip().startswith("```")
        title = None if is_code else TITLE.fullmatch(line)
        if title:
            found.append((number, len(title[1]), title[2].replace("`", "").casefold()))
    return found[1:]


def show(text: str) -> None:
    """Print a text; on a terminal that it is too long for, through the user's pager."""
    if sys.stdout.isatty() and text.count("\n") + 2 > shutil.get_terminal_size().lines:
        from pydoc import pager

        pager(text + "\n")
    else:
        print(text)
