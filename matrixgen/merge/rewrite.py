"""Other names in a tree, wherever they stand: on the plate, on wires, in layers and phrases."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.merge.parts import KEYWORD, grouped, is_joint, key_of
from matrixgen.record import changed
from matrixgen.source.statements.key_lists import KEYS_AFTER
from matrixgen.source.tree import FileTree, Piece, Statement

Names = dict[str, dict[str, str]]
"""New names by old ones, for each kind of name: key, wire, layer, action, cluster."""

KEYWORD_ROLES = {
    "row": (None, "wire"),
    "column": (None, "wire"),
    "cluster": (None, "cluster"),
    "mirrored": (None, "cluster"),
    "action": ("action",),
}
"""What the first words of a statement name, by its rule."""


def renamed(tree: FileTree, names: Names) -> FileTree:
    """Return a tree with other names."""
    if not names:
        return tree
    blocks = tuple(
        changed(
            block,
            header=_renamed(block.header, names),
            statements=tuple(_renamed(one, names) for one in block.statements),
        )
        for block in tree.blocks
    )
    return changed(tree, blocks=blocks)


def _renamed(statement: Statement, names: Names) -> Statement:
    places = [
        place
        for place, piece in enumerate(statement.pieces)
        if piece.kind == "word" and not is_joint(statement.pieces, place)
    ]
    pieces = list(statement.pieces)
    words = [pieces[place].text for place in places]
    for place, role in zip(places, _roles(statement.rule or "", words), strict=True):
        pieces[place] = Piece("word", _new_word(pieces[place].text, role, names))
    return changed(statement, pieces=tuple(pieces))


def _new_word(word: str, role: str | None, names: Names) -> str:
    if role == "key":
        name = key_of(word)
        return names.get("key", {}).get(name, name) + word[len(name) :]
    if role == "place":
        return next((names[kind][word] for kind in names if word in names[kind]), word)
    return names.get(role or "", {}).get(word, word)


def _roles(rule: str, words: Sequence[str]) -> Iterator[str | None]:
    """Yield what each word of a statement names, if it names anything."""
    for id, count in grouped(rule, words):
        group, words = words[:count], words[count:]
        if rule == "layer":
            yield from _header_roles(group)
        elif id == KEYWORD:
            known = KEYWORD_ROLES.get(rule, ())
            yield from (*known, *[None] * (count - len(known)))
        elif rule in KEYS_AFTER and isinstance(id, tuple) and id[0] == "key":
            yield "place" if rule == "allow" else "key"
        elif rule in ("plate_line", "entries") and isinstance(id, tuple) and id[0] == "key":
            yield "key"
            yield from _phrase_roles(group[1:])
        elif rule == "mirrored":
            yield from (None, "cluster", *[None] * (count - 2))
        else:
            is_said = rule in ("action", "picture_line")
            yield from _phrase_roles(group) if is_said else [None] * count


def _header_roles(words: Sequence[str]) -> Iterator[str | None]:
    """Yield what the words of `layer NAME while ONE and TWO are on` name."""
    for place, _ in enumerate(words):
        yield (
            "layer" if place == 1 or (place > 2 and place % 2 and place < len(words) - 2) else None
        )


def _phrase_roles(words: Sequence[str]) -> Iterator[str | None]:
    """Yield what the words of a cell name, of which the first may be `=`: layers and actions."""
    commas = [place for place, word in enumerate(words) if word == ","]
    start = 0
    for number, end in enumerate([*commas, len(words)]):
        part = words[start:end]
        decides = number > 1  # what follows a tap and a hold names nothing
        yield from [None] * len(part) if decides else _part_roles(part)
        yield from [None] * len(words[end : end + 1])
        start = end + 1


def _part_roles(words: Sequence[str]) -> Iterator[str | None]:
    """Yield what the words of a phrase name, or of one half of a tap and hold."""
    has_more = [one for one in words if one not in ("=", "tap", "hold")]
    has_layer = has_more[-2:-1] == ["layer"] or has_more[:-1] == ["change", "base", "to"]
    is_action = len(has_more) == 1
    last = "layer" if has_layer else "action" if is_action else None
    yield from [None] * (len(words) - 1)
    yield from [last] * len(words[-1:])
