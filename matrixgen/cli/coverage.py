"""What no layer of a file reaches, for `check --coverage`."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from matrixgen.cli.wrap import wrapped
from matrixgen.computer.coverage import SIGNS, not_covered
from matrixgen.jobs.examine import Examined

Unreached = dict[str, tuple[str, ...]]

LONG_RUN = 4
"""Letters or digits in a row that are shown as `a to d`."""

GLUE = "\u00a0"
"""A blank at which no line is broken."""


def unreached(examined: Sequence[Examined]) -> dict[str, Unreached]:
    """Return by path what each file that could be read has no key for, group by group."""
    return {one.path: not_covered(one.design.keyboard) for one in examined if one.design}


def coverage_lines(examined: Sequence[Examined]) -> Iterator[str]:
    """Yield a line a file, and below it a line or more for each group that lacks something."""
    for path, groups in unreached(examined).items():
        lacking = {group: words for group, words in groups.items() if words}
        if not lacking:
            yield f"{path}: layers have every symbol, and all keys for editing, moving and media"
            continue
        yield f"{path}: no layer has a key for"
        width = max(map(len, lacking))
        for group, words in lacking.items():
            shown = _runs(words) if group == SIGNS else words
            lines = wrapped(" ".join(shown), f"  {group.ljust(width)}  ")
            yield from (line.replace(GLUE, " ") for line in lines)


def _runs(signs: Sequence[str]) -> Iterator[str]:
    """Yield signs in their order, letters or digits in a row as `a to d`, and a blank by name."""
    places = [ord(sign) - number for number, sign in enumerate(signs)]
    for _, run in groupby(zip(places, signs, strict=True), lambda one: (one[0], _kind(one[1]))):
        row = [sign for _, sign in run]
        if len(row) >= LONG_RUN and row[0].isalnum():
            yield GLUE.join([row[0], "to", row[-1]])
        else:
            yield from ("Space" if sign == " " else sign for sign in row)


def _kind(sign: str) -> str:
    if sign.isalpha():
        return "capital" if sign.isupper() else "letter"
    return "digit" if sign.isdigit() else "sign"
