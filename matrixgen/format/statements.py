"""What of a statement stands in which column: its row."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.format.rows import NAME, PART, WORD, Row
from matrixgen.format.stretches import Stretch, spaced
from matrixgen.record import changed
from matrixgen.source.parts import COMPONENTS, WIRES, is_of_keys
from matrixgen.source.statements import STATEMENTS
from matrixgen.source.tree import Piece, Statement


def row_of(statement: Statement, stretches: Sequence[Stretch]) -> Row:
    """Return the row of a statement that is no row of cells."""
    words = stretches[0].words
    if len(stretches) == 1:
        return _row(statement.rule, words)
    if statement.rule in WIRES and is_of_keys(stretches[1].words[0].part):
        return changed(_wire(words), may_wrap=False)
    return Row(group=None, fields=(spaced(words),))


def _row(rule: str | None, words: Sequence[Piece]) -> Row:
    if rule in WIRES:
        return _wire(words)
    if rule == "action":
        name, said = (words[0].text,), (spaced(words[1:]),)
        return Row(group="action", fields=name, columns=(NAME,), keys=said, may_wrap=False)
    if rule in COMPONENTS:
        return _component(words)
    head, keys = [word for word in words if not is_of_keys(word.part)], _keys(words)
    if rule and STATEMENTS[rule].block == "keyboard":
        values = (spaced(head[1:]), *keys)
        return Row(group="setting", fields=(words[0].text,), keys=values, may_wrap=bool(keys))
    return Row(group=None, fields=(spaced(head),), keys=keys)


def _component(words: Sequence[Piece]) -> Row:
    """Return the row of a light or a knob: its kind, name and pins in columns, then all else."""
    pins = [one for one in words if one.part[0] == "pin"]
    rest = words[2 + len(pins) :]
    return component_row(words[0].text, words[1].text, spaced(pins), spaced(rest))


def component_row(kind: str, name: str, pins: str, rest: str = "") -> Row:
    """Return the row of a light or a knob, of texts."""
    fields = (kind, name, pins, rest)
    return Row(group="component", fields=fields, columns=(WORD, NAME, PART))


def _wire(words: Sequence[Piece]) -> Row:
    pins, colour = ([one for one in words if one.part[0] == kind] for kind in ("pin", "colour"))
    return wire_row(words[0].text, words[1].text, spaced(pins), spaced(colour), _keys(words))


def wire_row(axis: str, name: str, pins: str, colour: str, keys: Sequence[str]) -> Row:
    """Return the row of a wire: its axis, name, pins and colour in columns, then its keys."""
    columns = (WORD, NAME, PART, PART)
    fields = (axis, name, pins, colour)
    return Row(group="wire", fields=fields, columns=columns, keys=tuple(keys), gap="  ")


def _keys(words: Sequence[Piece]) -> tuple[str, ...]:
    return tuple(word.text for word in words if is_of_keys(word.part))
