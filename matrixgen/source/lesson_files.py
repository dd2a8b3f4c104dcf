"""The lessons in `grammar/lessons`: what to say of the likely ways to get a line wrong.

A file a block, and one for all phrases. A table's name is the grammar's rule that the lesson is of:
a block, a statement or a phrase. `broken` has lines that are that mistake, as they are written in
their block, or after `=` for a phrase; one with a line feed in it is a whole text. `<this|that>`
makes a line of each. A word of `[words]` stands in a `help` for what it says there.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from functools import cache
from itertools import product
from typing import Any

from matrixgen.record import Record
from matrixgen.resources import resource
from matrixgen.source.cures import Cure, cure_named
from matrixgen.source.patterns import pattern
from matrixgen.source.phrases import forms
from matrixgen.source.statements import BLOCKS


class Lesson(Record, kw_only=True):
    """What to say of a kind of broken line. `{found}` in the message is the word that broke it.

    `rule` is the grammar's, of what was to be written. The parser reads each of the texts in
    `broken`, and where its state is the same as in a user's line, that lesson is the one to give.
    `shows` is a cure that is no fix: it moves words, so that the help is only to show its line.
    `types` is whether what broke it may have been meant to be typed, as `!` in a cell may.
    """

    message: str
    help: str
    rule: str = ""
    broken: tuple[str, ...] = ()
    cure: Cure | None = None
    shows: Cure | None = None
    types: bool = False


@cache
def every_lesson() -> tuple[Lesson, ...]:
    """Return each lesson that is taught by texts, in the order of the language reference."""
    return tuple(lesson for name in (*BLOCKS, "phrases") for lesson in _lessons_of(name))


def _lessons_of(name: str) -> Iterator[Lesson]:
    """Yield the lessons of a block's file, or of the one of all phrases."""
    text = (resource("grammar") / "lessons" / f"{name}.toml").read_text(encoding="utf-8")
    tables = tomllib.loads(text)
    words = {"phrases": forms(), **tables.pop("words", {})}
    for rule, rows in tables.items():
        for row in rows:
            yield _lesson(_lead_ins(name, rule), rule, row, words)


def _lead_ins(name: str, rule: str) -> tuple[str, ...]:
    """Return what comes before a line of a lesson to make it a text."""
    if name == rule:
        return ("",)
    if name == "phrases":
        return ("actions\n  name = ", "layer numbers\n  Q = ")
    return (f"{BLOCKS[name].form}\n  ",)


def _lesson(
    lead_ins: tuple[str, ...], rule: str, row: dict[str, Any], words: dict[str, str]
) -> Lesson:
    broken = tuple(
        f"{before}{line}\n"
        for written in row["broken"]
        for line in _each_of(written)
        for before in (("",) if "\n" in line else lead_ins)
    )
    cures: dict[str, Any] = {
        name: cure_named(row[name]) for name in ("cure", "shows") if name in row
    }
    rest = {"rule": rule, "help": row["help"].format_map(words), "broken": broken}
    return Lesson(**row | rest | cures)


def _each_of(written: str) -> Iterator[str]:
    """Yield each line that a line with `<this|that>` in it stands for."""
    parts = pattern(r"<([^>]*)>").split(written)
    choices = [part.split("|") if at % 2 else [part] for at, part in enumerate(parts)]
    yield from map("".join, product(*choices))
