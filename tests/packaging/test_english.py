"""Words and turns that pages, helps and messages do not use, and the ones to use instead.

A technician says these at the bench in another way. Each is looked for in every page, in the page
of each finding, in the help of each command and in what `tests/messages` has of each message.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from matrixgen.cli.commands import COMMANDS
from matrixgen.cli.main import main
from matrixgen.jobs.catalogue import catalogue
from tests.pages import PAGES, page

MESSAGES = Path(__file__).parents[1] / "messages"

INSTEAD = {
    r"(?<!there )\bis no (?!longer\b)\w+": "is not a …",
    r", be (?:it|they|there)\b": "whether, either, with or without",
    r"\banew\b": "again",
    r"\bmend(?:s|ed|ing)?\b": "fix",
    r"\bcure[sd]?\b": "fix",
    r"\bfor ever\b": "no limit, always, from then on",
    r"\bon silicon\b": "on real hardware",
    r"\b(?:was|were) tried\b": "has been tested",
    r"\bstands? (?:where|here|there)\b": "is, or: expected X, found Y",
    r"\bso that (?:no|nothing|none)\b": "so",
    r"\bsecond dut(?:y|ies)\b": "second function",
    r"\btells? of\b": "describes, reports",
    r"\ba fact a line\b|\bone (?:\w+ )?a (?:line|file|row|controller|picture|chip)\b": "one per …",
    r"\blet go\b|\blets it go\b": "release",
    r"\bleaves? with (?:status )?\d": "exit with 1",
    r"\bblanks?\b": "space",
}
"""What is not written, and what is written for it."""

CODE = re.compile(r"^```.*?^```|`[^`\n]*`", re.MULTILINE | re.DOTALL)


def texts() -> Iterator[tuple[str, str]]:
    """Yield each page and the page of each finding, by name, without code."""
    for name in PAGES:
        yield name, CODE.sub("``", page(name))
    for slug, problem in catalogue().items():
        yield slug, CODE.sub("``", problem.page)
    for path in sorted(MESSAGES.glob("*.txt")):
        told = [
            line for line in path.read_text("utf-8").splitlines() if not re.match(r" *\d* \|", line)
        ]
        yield path.name, CODE.sub("``", "\n".join(told))


def unwanted(text: str) -> list[str]:
    """Return what of a text is to be written in another way, with the way."""
    text = " ".join(text.split())
    return [
        f"`{found[0]}`: {instead}"
        for pattern, instead in INSTEAD.items()
        for found in re.finditer(pattern, text, re.IGNORECASE)
    ]


@pytest.mark.parametrize(("name", "text"), [pytest.param(*one, id=one[0]) for one in texts()])
def test_a_page_uses_the_words_of_the_trade(name: str, text: str) -> None:
    assert unwanted(text) == []


@pytest.mark.parametrize("command", COMMANDS)
def test_so_does_the_help_of_a_command(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([command, "--help"]) == 0
    assert unwanted(capsys.readouterr().out) == []


def test_what_is_not_wanted_is_found() -> None:
    assert len(unwanted("this is no key, be it on silicon; mend it anew, and let go")) == 6
    assert unwanted("this is no longer a key") == []
