"""Files that say the same: blanks, comments, line ends and joints wherever they may stand."""

from __future__ import annotations

import random
from itertools import pairwise

from matrixgen.model import SourceText
from matrixgen.source.tree import every_statement
from matrixgen.source.tree_reader import tree_of

COMMENTS = ("# a comment", "#", "# and so on", '# "quoted', "#\té ½ 日本", "# row r9 on PZ9  Q")
BLANKS = (" ", "  ", "\t", " \t ", "      ")
LINE_ENDS = ("\n", "\r\n", "\r")


def statements_of(text: str) -> list[tuple[bool, list[str]]]:
    """Each statement of a text as whether it opens a block, and its words."""
    tree = tree_of(SourceText("plain.keys", text))
    return [(one.pieces[0].kind != "gap", list(one.words)) for one in every_statement(tree)]


def as_unix(text: str) -> str:
    """Return a text without its byte order mark, its line ends as Unix has them."""
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")


class Spacing:
    """One way to space a file."""

    def __init__(self, chance: random.Random) -> None:
        self._chance = chance
        self._line_end = chance.choice(LINE_ENDS)
        self._joints = chance.choice((0.0, 0.05, 0.3))
        self._comments = chance.choice((0.0, 0.1, 0.5))

    def text(self, statements: list[tuple[bool, list[str]]]) -> str:
        """The statements as a text; its line ends may be of any system."""
        chance = self._chance
        parts = [self._idle(), *(self._statement(*one) for one in statements), self._idle()]
        text = "".join(parts)
        if chance.random() < 0.3:
            text = text.rstrip("\n")
        mark = "\ufeff" if chance.random() < 0.2 else ""
        return mark + text.replace("\n", self._line_end)

    def _statement(self, opens: bool, words: list[str]) -> str:
        made = "" if opens else self._chance.choice(BLANKS)
        made += words[0]
        for before, word in pairwise(words):
            made += self._gap(before, word) + word
        return made + self._rest() + "\n" + self._idle()

    def _gap(self, before: str, after: str) -> str:
        if self._chance.random() < self._joints:
            chance = self._chance
            return (
                f"{self._rest()}\n{self._idle()}{chance.choice(BLANKS)}and{chance.choice(BLANKS)}"
            )
        may_touch = after in ",=" or before in ",="
        return self._chance.choice((*BLANKS, "")) if may_touch else self._chance.choice(BLANKS)

    def _rest(self) -> str:
        """What may follow a line's last word: blanks and a comment."""
        if self._chance.random() < self._comments:
            return self._chance.choice(("", " ", "\t")) + self._chance.choice(COMMENTS)
        return self._chance.choice(("", "", "", " ", "\t"))

    def _idle(self) -> str:
        """Empty lines and comments between two lines."""
        lines = []
        while self._chance.random() < self._comments:
            indent = self._chance.choice(("", "  ", "\t"))
            lines.append(self._chance.choice((indent, indent + self._chance.choice(COMMENTS))))
        return "".join(f"{line}\n" for line in lines)
