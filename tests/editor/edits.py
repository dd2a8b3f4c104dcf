"""Small edits as they are made in an editor: a letter, a word, a line, and back again."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from random import Random

from matrixgen.model import SourceText
from matrixgen.source.statements import BLOCKS, STATEMENTS
from matrixgen.source.tree import every_statement, words_in
from matrixgen.source.tree_reader import tree_of

FORMS = [one.form for one in (*BLOCKS.values(), *STATEMENTS.values())]
LETTERS = ["a", "Z", "1", " ", "\n", "\n  ", "=", ",", ":", "~", '"', "#", "é", "𝛑", "\t", "+", "-"]


def _letters(chance: Random, text: str) -> str:
    place, cut = chance.randrange(len(text) + 1), chance.choice((0, 0, 1, 3))
    return text[:place] + chance.choice(("", *LETTERS)) + text[place + cut :]


def _word(chance: Random, text: str) -> str:
    """Another word in the place of one, more often than not one that may stand there."""
    words = [
        (piece.terminal, piece.text)
        for statement in every_statement(tree_of(SourceText("pad.keys", text)))
        for piece in words_in(statement.pieces)
    ]
    by_kind = defaultdict(list)
    for kind, word in words:
        by_kind[kind].append(word)
    kind, old = chance.choice(words)
    new = chance.choice(by_kind[kind] if chance.random() < 0.8 else words[0])
    return _replaced(chance, text, old, new)


def _replaced(chance: Random, text: str, old: str, new: str) -> str:
    places = [n for n in range(len(text)) if text.startswith(old, n)]
    place = chance.choice(places)
    return text[:place] + new + text[place + len(old) :]


def _line(chance: Random, text: str) -> str:
    lines = text.split("\n")
    place = chance.randrange(len(lines))
    new = chance.choice((None, "", "# note", lines[place], f"  {chance.choice(FORMS)}"))
    if chance.random() < 0.5:
        lines[place : place + chance.randrange(2)] = [] if new is None else [new]
    else:
        other = chance.randrange(len(lines))
        lines[place], lines[other] = lines[other], lines[place]
    return "\n".join(lines)


def edits(chance: Random, text: str, count: int) -> Iterator[str]:
    """Texts, each an edit away from the one before, and now and then the first one again."""
    now = text
    for _ in range(count):
        if chance.random() < 0.25 or not now.strip():
            now = text
        else:
            now = chance.choice((_letters, _word, _word, _line))(chance, now)
        yield now
