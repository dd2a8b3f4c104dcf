"""What is known of each kind of line: where it stands, how often, its form, what breaks it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Literal

from matrixgen.record import Record

Cure = Callable[[str, int], Iterable[tuple[int, int, str]]]
"""What a broken statement's only cure is.

It gets the statement's text and the place in it of the word that broke it, counted from 0, and
returns edits: a place, how many letters are to go there, and what comes instead.
"""


class Lesson(Record, kw_only=True):
    """What to say of a kind of broken line. `{found}` in the message is the word that broke it.

    The parser reads each of the snippets in `broken`, and where its state is the same as in a
    user's line, that lesson is the one to give; see `unreadable.py`. `types` is whether what broke
    it may have been meant to be typed, as `!` in a cell may.
    """

    message: str
    help: str
    broken: tuple[str, ...]
    cure: Cure | None = None
    types: bool = False


class Statement(Record, kw_only=True):
    """A line of a block, by the grammar's rule for it. `keyword` is its first word, if it has one.

    `form` is a line of that kind, to be shown where no lesson fits. `called` is what messages call
    it where its first word alone would not tell it from another.
    """

    rule: str
    keyword: str | None
    block: str
    often: Literal["once", "any"]
    form: str
    lessons: tuple[Lesson, ...] = ()
    called: str = ""


class Block(Record, kw_only=True):
    """A block by its first word, and the lines that may stand in it."""

    keyword: str
    often: Literal["once", "any"]
    form: str
    lessons: tuple[Lesson, ...]
    statements: tuple[Statement, ...]
