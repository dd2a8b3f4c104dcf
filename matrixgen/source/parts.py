"""The parts of a statement, by what the grammar makes of its words: a pin, a key, a value, a gap.

A rule within a statement is a part of that name, and so is a name, by its terminal. A word of the
language or a sign goes with what follows it, a unit and a size with what they follow.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from matrixgen.source.lexer import keys_lexer
from matrixgen.source.parser import LINE_ENDS
from matrixgen.source.reporter import every_token, trees

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node, Token

    Word = tuple[Token, str, "PartId"]
    """A word, the grammar's terminal for it, and the part that it belongs to."""

PartId = tuple[str | int | None, ...]
"""The name of a part: its kind, the key that it is about, and a number from the second one on."""

KEYWORD: PartId = ("keyword",)
VALUE: PartId = ("value",)
KEYS: PartId = ("keys",)
"""The part that a run of keys is, and all keys of a statement with a run among them."""


def is_of_keys(part: PartId) -> bool:
    """Whether a part is a key, or a run of keys."""
    return part[:1] in (("key",), KEYS)


WIRES = ("row", "column")
"""The rules of the statements that wires are."""

COMPONENTS = ("light", "knob")
"""The rules of the statements of what is wired besides the matrix."""

NAMED_PLACES = ("light_place", "knob_place")
"""The rules of the statements of a plate that say where something with a name is."""

PLACES = (
    *("hole", "keep_clear", "controller_place", "outline", "cut_out", "thickness"),
    *NAMED_PLACES,
)
"""The rules of the statements of a plate that are for no line or cluster of it."""

TELLS_APART = frozenset(
    {
        *("ACTION_NAME", "CLUSTER_NAME", "KNOB_NAME", "LAYER_NAME", "LIGHT_NAME", "SLUG"),
        "WIRE_NAME",
    }
)
"""Names that belong to a statement's keyword: there may be several such statements."""

GOES_WITH_BEFORE = frozenset({"SIZE", "MS", "_MICROSECONDS"})

KINDS = {
    "CELL": "cell",
    "COLOUR": "colour",
    "GAP": "gap",
    "KEY": "key",
    "LIGHT_COLOUR": "colour",
    "PIN": "pin",
    "SEE_THROUGH": "cell",
}
"""Words that are a part each, by terminal; the others make up the statement's value."""


def words_of(file: Node) -> Iterator[Word]:
    """Yield each word of a file, of whose tree nothing was left out."""
    for block in trees(file):
        header = (one for one in block.children if isinstance(one, str))
        yield from _words([one for one in header if one.type not in LINE_ENDS])
        for statement in trees(block):
            yield from _words(statement.children)


def _words(children: Sequence[Token | Node]) -> Iterator[Word]:
    """Yield the words of a statement, or of a block's first line."""
    seen: Counter[PartId] = Counter()
    part, is_first = KEYWORD, True
    waiting: list[Token] = []
    for place, child in enumerate(children):
        kind = child.type if isinstance(child, str) else ""
        if isinstance(child, str) and kind in GOES_WITH_BEFORE:
            yield child, kind, part
        elif isinstance(child, str) and kind not in keys_lexer().meant:
            waiting.append(child)
        else:
            if not (is_first and kind in TELLS_APART):
                part = _part(child, children[place + 1 :], seen)
            yield from ((one, one.type, KEYWORD if is_first else part) for one in waiting)
            yield from _named(child, part)
            waiting, is_first = [], False
    yield from ((one, one.type, part) for one in waiting)


def _named(child: Token | Node, part: PartId) -> Iterator[Word]:
    """Yield the words of a part; the first one of a list's cell is a key."""
    words = [child] if isinstance(child, str) else every_token(child)
    for place, word in enumerate(words):
        is_key = not isinstance(child, str) and child.data == "entry" and place == 0
        yield word, "KEY" if is_key else word.type, part


def _part(child: Token | Node, following: Sequence[Token | Node], seen: Counter[PartId]) -> PartId:
    """Return the name of the part that a name or a rule is."""
    name = _name_of(child, following)
    if name in (VALUE, KEYS):
        return name
    seen[name] += 1
    return name if seen[name] == 1 else (*name, seen[name] - 1)


def _name_of(child: Token | Node, following: Sequence[Token | Node]) -> PartId:
    if not isinstance(child, str):
        if child.data == "entry":
            return "key", str(child.children[0])
        return KEYS if child.data == "run" else (str(child.data),)
    kind = KINDS.get(child.type, "value")
    if kind == "key":
        return kind, str(child)
    if kind == "gap":  # it is named by the key that it moves
        keys = (one for one in following if isinstance(one, str) and one.type == "KEY")
        return kind, next(map(str, keys), None)
    return (kind,)
