"""Other names in a tree, wherever they stand: on the plate, on wires, in layers and phrases."""

from __future__ import annotations

from typing import Literal

from matrixgen.model.knob import steps_of
from matrixgen.record import changed
from matrixgen.source.tree import FileTree, Piece, Statement

NewNames = dict[str, dict[str, str]]
"""New names by old ones, for each kind of name: key, wire, layer, action, cluster, light, knob."""

NamedKind = Literal["action", "cluster", "key", "knob", "layer", "light", "wire"]

NAMED: dict[str, NamedKind] = {
    "ACTION_NAME": "action",
    "CELL": "action",
    "CLUSTER_NAME": "cluster",
    "KEY": "key",
    "KNOB_NAME": "knob",
    "LAYER_NAME": "layer",
    "LIGHT_NAME": "light",
    "WIRE_NAME": "wire",
}
"""The kind of thing that a word names, by its terminal. A cell may name an action."""


def renamed(tree: FileTree, names: NewNames) -> FileTree:
    """Return a tree with other names."""
    if not names:
        return tree
    names = _with_steps(names)
    blocks = tuple(
        changed(
            block,
            header=_renamed(block.header, names),
            statements=tuple(_renamed(one, names) for one in block.statements),
        )
        for block in tree.blocks
    )
    return changed(tree, blocks=blocks)


def _with_steps(names: NewNames) -> NewNames:
    """Return names with those of the steps of knobs, which layers have where keys stand."""
    pairs = names.get("knob", {}).items()
    steps = {
        old: new
        for one, other in pairs
        for old, new in zip(steps_of(one), steps_of(other), strict=True)
    }
    return {**names, "key": names.get("key", {}) | steps} if steps else names


def _renamed(statement: Statement, names: NewNames) -> Statement:
    pieces = tuple(
        changed(piece, text=_new_word(piece, names, of_allow=statement.rule == "allow"))
        for piece in statement.pieces
    )
    return changed(statement, pieces=pieces)


def _new_word(piece: Piece, names: NewNames, *, of_allow: bool) -> str:
    """Return the new name of what a word names; the places of an `allow` may be of any kind."""
    named = NAMED.get(piece.terminal, "")
    kinds = list(names) if of_allow and named == "key" else [named]
    word = piece.text
    return next((names[kind][word] for kind in kinds if word in names.get(kind, ())), word)
