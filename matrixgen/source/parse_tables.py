"""What the tables of a grammar consist of: rules, kinds of words, and what is done next."""

from __future__ import annotations

from matrixgen.record import Record


class GrammarRule(Record, kw_only=True):
    """A rule of the grammar, with each of its options on its own.

    `origin` is what it makes, `size` how many things it makes it of, and `name` that of the tree.
    `kept` are the places, from 0, of the things that the tree keeps; of one whose own children
    stand for it, -1 - place. `every` are those of a tree that keeps all words.
    """

    origin: str
    size: int
    name: str
    kept: tuple[int, ...]
    every: tuple[int, ...]


class Terminal(Record):
    """A kind of words, by the regular expression that matches them, or the only word there is."""

    name: str
    regular: str
    word: str | None


class Tables(Record, kw_only=True):
    """What a parser does next.

    `states` has for each of its states what may come, by name, and what is done then: the number of
    the state to go to, or for a rule that ends there, -1 - its number. `terminals` are in the order
    in which they are to be tried; `ignored` are those that no rule has to name.
    """

    start: int
    end: int
    states: tuple[dict[str, int], ...]
    rules: tuple[GrammarRule, ...]
    terminals: tuple[Terminal, ...]
    ignored: frozenset[str]
