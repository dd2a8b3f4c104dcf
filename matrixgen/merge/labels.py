"""What is said of a conflict: the key, wire or layer that it is about."""

from __future__ import annotations

from matrixgen.merge.rewrite import NAMED
from matrixgen.merge.three_way import Id
from matrixgen.model.prose import spaced
from matrixgen.source.parts import KEYWORD, PLACES, VALUE
from matrixgen.source.tree import Statement


def block_label(block: Id) -> str:
    """Return what a block is called: `layer nav`, `wiring`."""
    return " ".join(str(word) for word in block) if isinstance(block, tuple) else str(block)


def statement_label(block: Id, statement: Statement, part: Id | None) -> str:
    """Return what a part of a statement is called, or the statement: `key Tab on the plate`."""
    name = _name(block, statement)
    if not isinstance(part, tuple) or part in (KEYWORD, VALUE):
        return name
    if part[0] == "key":
        return f"key {part[1]} on {name}"
    if part[0] == "gap":
        return f"gap before {part[1]} on {name}" if part[1] else f"gap at the end of {name}"
    return f"{part[0]} of {name}"


def _name(block: Id, statement: Statement) -> str:
    """Return what a statement is called: by the name that it defines, or its keyword."""
    if statement.rule == "plate_line":
        return "the plate"
    if statement.rule in ("entries", "picture_line"):
        return block_label(block)
    if statement.rule == "together":
        return f"{' '.join(statement.named('KEY'))} together on {block_label(block)}"
    if statement.rule in PLACES:
        return spaced(" ".join(statement.words))
    keyword = statement.parts[0]
    named = [one for one in keyword.text if one.terminal in NAMED]
    return f"{NAMED[named[0].terminal]} {named[0].text}" if named else " ".join(keyword.words)
