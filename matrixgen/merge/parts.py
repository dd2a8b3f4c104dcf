"""A statement as parts that each have a name of their own: a key, a pin, a value, a gap.

A part has its words, and the blanks before it: with them a statement is put together again, in
which other words stand between the same blanks.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from matrixgen.merge.three import Id
from matrixgen.record import Record, changed
from matrixgen.source.statements.key_lists import KEYS_AFTER, WIRES, end_of_pins
from matrixgen.source.tables import terminal
from matrixgen.source.tree import Piece, Statement

KEYWORD = "keyword"
KEYS = ("keys",)
"""The part that all keys of a statement make up where there is a run among them."""

Group = tuple[Id, int]


class Part(Record):
    """Some words of a statement, by name. `lead` is what stands before, back to the last word."""

    id: Id
    lead: tuple[Piece, ...]
    text: tuple[Piece, ...]

    @property
    def words(self) -> tuple[str, ...]:
        """Its words."""
        return words_in(self.text)


class Split(Record):
    """A statement in parts, and what follows its last word."""

    parts: tuple[Part, ...]
    tail: tuple[Piece, ...]

    @property
    def ids(self) -> tuple[Id, ...]:
        """The names of the parts."""
        return tuple(part.id for part in self.parts)

    def part(self, id: Id) -> Part | None:
        """Return the part of that name, if there is one."""
        return next((part for part in self.parts if part.id == id), None)


def words_in(pieces: Sequence[Piece]) -> tuple[str, ...]:
    """Return the words of some pieces, but those that join two lines."""
    found: list[str] = []
    for place, piece in enumerate(pieces):
        if piece.kind == "word" and not is_joint(pieces, place):
            found.append(piece.text)
    return tuple(found)


def is_joint(pieces: Sequence[Piece], place: int) -> bool:
    """Whether a piece is the `and` that joins a line to the one above."""
    before = [piece.kind for piece in pieces[max(0, place - 2) : place]]
    return pieces[place].text == "and" and before == ["line end", "gap"]


def split(statement: Statement, *, with_runs: bool = False) -> Split:
    """Return a statement's parts; with runs among its keys, all of these are one part."""
    pieces = statement.pieces
    places = [
        n for n, piece in enumerate(pieces) if piece.kind == "word" and not is_joint(pieces, n)
    ]
    words = [pieces[place].text for place in places]
    parts: list[Part] = []
    word = end = 0
    for id, count in grouped(statement.rule, words, with_runs=with_runs):
        first, last = places[word], places[word + count - 1]
        parts.append(Part(id, pieces[end:first], pieces[first : last + 1]))
        word, end = word + count, last + 1
    return Split(tuple(parts), pieces[end:])


def joined(frame: Statement, parts: Sequence[Part], tail: Sequence[Piece]) -> Statement:
    """Return a statement made of parts."""
    pieces = [piece for part in parts for piece in (*part.lead, *part.text)]
    return changed(frame, pieces=(*pieces, *tail))


def grouped(rule: str | None, words: Sequence[str], *, with_runs: bool = False) -> list[Group]:
    """Return the names of a statement's parts, and how many words each has."""
    if rule in KEYS_AFTER:
        groups = _with_keys(KEYS_AFTER[rule], rule, words, with_runs=with_runs)
    else:
        groups = GROUPS[rule](words) if rule in GROUPS else _value(1, words)
    return [group for group in groups if group[1] > 0]


def _value(keywords: int, words: Sequence[str]) -> list[Group]:
    return [(KEYWORD, keywords), ("value", len(words) - keywords)]


def _listed(name: str, words: Sequence[str], first: int) -> list[Group]:
    """Group words with commas between: the first has `first` words, each other one its comma."""
    count = words.count(",") + 1
    return [((name, 0), first), *(((name, place), 2) for place in range(1, count))]


def _controller(words: Sequence[str]) -> list[Group]:
    return [(KEYWORD, 1), *_listed("controller", words, 1)]


def _diodes(words: Sequence[str]) -> list[Group]:
    return [(KEYWORD, 1), ("diode", 1), ("band", len(words) - 2)]


def _debounce(words: Sequence[str]) -> list[Group]:
    """Group the debounce time, and after its comma the time of a press."""
    comma = words.index(",") if "," in words else len(words)
    return [(KEYWORD, 1), ("value", comma - 1), ("press", len(words) - comma)]


def _cluster(words: Sequence[str]) -> list[Group]:
    place = words.index("turned") if "turned" in words[2:] else len(words)
    return [(KEYWORD, 2), ("place", place - 2), ("turned", len(words) - place)]


def _with_keys(start: int, rule: str, words: Sequence[str], *, with_runs: bool) -> list[Group]:
    """Group a list of keys, and what stands before them: pins and a colour."""
    groups: list[Group] = [(KEYWORD, start)]
    if rule in WIRES:
        end = end_of_pins(words)
        groups += _listed("pin", words[start:end], 2) if end > start else []
        start = end
        if words[start : start + 1] == ["wire"]:
            groups.append(("colour", 2))
            start += 2
    keys = words[start:]
    return [*groups, *([(KEYS, len(keys))] if with_runs else [(("key", key), 1) for key in keys])]


def _plate_line(words: Sequence[str]) -> list[Group]:
    """Group a line of the plate; a gap is named by the key that it moves."""
    groups: list[Group] = [(KEYWORD, 1)]
    place, gaps = 1, 0
    while words[place] in ("in", "down") and terminal("NUMBER").fullmatch(words[place + 1]):
        groups.append((words[place], 2))
        place += 2
    while place < len(words):
        key = next((key_of(word) for word in words[place:] if not is_gap(word)), None)
        has_size = words[place + 1 : place + 2] and words[place + 1].startswith(":")
        gaps = gaps + 1 if is_gap(words[place]) else 0
        count = 2 if has_size else 1
        groups.append((("gap", key, gaps), 1) if gaps else (("key", key), count))
        place += 1 if gaps else count
    return groups


def is_gap(word: str) -> bool:
    """Whether a word of a plate's line is a gap."""
    return word.startswith("~")


def key_of(word: str) -> str:
    """Return the name of a key without its size."""
    return word.partition(":")[0]


def _entries(words: Sequence[str]) -> list[Group]:
    """Group `KEY = CELL`s: a key stands before each `=`."""
    starts = [place - 1 for place, word in enumerate(words) if word == "="]
    ends = [*starts[1:], len(words)]
    return [(("key", words[start]), end - start) for start, end in zip(starts, ends, strict=True)]


def _picture_line(words: Sequence[str]) -> list[Group]:
    return [(("cell", place), 1) for place in range(len(words))]


def _area(words: Sequence[str]) -> list[Group]:
    """Group an area's corner, and its size behind a comma."""
    return [(KEYWORD, 2), ("place", 3), ("size", len(words) - 5)]


GROUPS: dict[str | None, Callable[[Sequence[str]], list[Group]]] = {
    "controller": _controller,
    "debounce": _debounce,
    "diodes": _diodes,
    "cluster": _cluster,
    "mirrored": lambda words: _value(2, words),
    "double_reset": lambda words: [(KEYWORD, len(words))],
    "layer": lambda words: [(KEYWORD, len(words))],
    "hole": lambda words: [(KEYWORD, 1), ("place", len(words) - 1)],
    "keep_clear": _area,
    "plate_line": _plate_line,
    "entries": _entries,
    "picture_line": _picture_line,
}
"""How the words of a statement are grouped, by its rule; a keyword and a value are the rest."""
