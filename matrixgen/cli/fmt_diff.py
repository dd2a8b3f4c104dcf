"""What formatting would change, as a unified diff."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import unified_diff

from matrixgen.cli.fit_to_print import clean
from matrixgen.model import SourceText

NO_END = "\\ No newline at end of file"


def diff_of(source: SourceText, text: str) -> str:
    """Return the changed lines with three around them; where line ends alone differ, that."""
    after = SourceText(source.path, text)
    name = clean(source.path)
    lines = list(
        unified_diff(_lines(source), _lines(after), name, f"{name} (formatted)", lineterm="\n")
    )
    if not lines:
        return f"{name}: its line ends are of more than one kind\n"
    return "".join(_shown(lines))


def _lines(source: SourceText) -> list[str]:
    """Return the lines of a text with their line feeds; the last may have none."""
    *ended, last = source.text.split("\n")
    return [f"{line}\n" for line in ended] + [last] * bool(last)


def _shown(lines: list[str]) -> Iterator[str]:
    for line in lines:
        text = line.removesuffix("\n")
        yield "\t".join(map(clean, text.split("\t"))) + "\n"
        if text == line:
            yield f"{NO_END}\n"
