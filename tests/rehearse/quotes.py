"""Runs of `matrixgen rehearse` that a page quotes, and what the program prints instead of them.

A quote is a fenced block of the language `rehearse`. Its first line is the command, as one may type
it in a shell: `$ echo "STEPS" | matrixgen rehearse FILE`; the rest is what is printed. FILE is a
file of the checkout, or, where its name has no folder, the last block `keys` above the quote.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from tests.pages import CHECKOUT, page
from tests.pages import PAGES as EVERY_PAGE

PAGES = tuple(name for name in EVERY_PAGE if "\n```rehearse\n" in page(name))
"""Those that quote a run."""

FENCE = re.compile(r"^```(keys|rehearse)(?: whole)?\n(.*?)^```$", re.S | re.M)
COMMAND = re.compile(r'^\$ echo "([^"]*)" \| matrixgen rehearse (\S+)$')


@dataclass(frozen=True)
class Quote:
    """A run: its steps, the name and the text of its file, and what the page says it prints."""

    command: str
    steps: str
    file: str
    text: str
    output: str


def quotes_of(page: str) -> Iterator[Quote]:
    """Yield the runs of a page's text, in order."""
    above = ""
    for found in FENCE.finditer(page):
        if found[1] == "keys":
            above = found[2]
        else:
            yield _quote(found[2], above)


def _quote(block: str, above: str) -> Quote:
    command, _, output = block.partition("\n")
    parts = COMMAND.match(command)
    assert parts, f'no command of the form `$ echo "..." | matrixgen rehearse FILE`: {command}'
    steps, file = parts.groups()
    text = (CHECKOUT / file).read_text("utf-8") if "/" in file else above
    return Quote(command, steps, file, text, output)


def renewed(page: str, printed: Callable[[Quote], str]) -> str:
    """Return a page whose quotes say what the program prints now."""
    rest = quotes_of(page)

    def block(found: re.Match[str]) -> str:
        if found[1] == "keys":
            return found[0]
        quote = next(rest)
        return f"```rehearse\n{quote.command}\n{printed(quote)}```"

    return FENCE.sub(block, page)
