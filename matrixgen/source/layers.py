"""The blocks `layer`: the base layer, which has an action for every key, and those above it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Note
from matrixgen.model.keyboard import BASE, Assignment, Key, Layer, PlateLine
from matrixgen.model.span import Word
from matrixgen.source.actions import Cells
from matrixgen.source.names import Names
from matrixgen.source.pictures import has_plate_shape
from matrixgen.source.reading import Reading, tokens, trees
from matrixgen.source.statements import STATEMENT_BLOCKS, report_misplaced
from matrixgen.source.wiring import known_key

if TYPE_CHECKING:
    from lark import Token

    from matrixgen.source.parser import Node

Plate = tuple[PlateLine, ...]


def layers_of(
    reading: Reading, file: Node, plate: Plate, keys: Names, cells: Cells
) -> tuple[Layer, ...]:
    """Return the base layer, filled up from the keys' own names, and then the others in order."""
    names = Names(reading, "layer", "give each layer a name of its own")
    drafts = [
        LayerDraft(reading, block, plate, keys, cells)
        for block in trees(file)
        if block.data == "layer" and names.define(reading.word(tokens(block)[0]))
    ]
    most = reading.limits.layers
    if len(drafts) > most:
        message = f"this is layer number {most + 1}; a keyboard has at most {most}"
        reading.report("over-the-limit", drafts[most].name.span, message)
    given = [draft for draft in drafts if draft.name.text == BASE]
    others = [draft.layer for draft in drafts if draft.name.text != BASE]
    return _base(reading, given[0] if given else None, plate), *others


class LayerDraft:
    """One block `layer` as it is read: what it gives, and the keys whose cells make no sense."""

    def __init__(
        self, reading: Reading, block: Node, plate: Plate, keys: Names, cells: Cells
    ) -> None:
        self._reading = reading
        self._keys = keys
        self._cells = cells
        self._given: dict[str, Assignment] = {}
        self._spoilt: set[str] = set()
        self._all_spoilt = False
        self.name = reading.word(tokens(block)[0])
        lines = [line for line in trees(block) if self._belongs(line)]
        is_picture = bool(lines) and lines[0].data == "picture_line"
        self._check_mixture(lines)
        if is_picture:
            self._read_picture([line for line in lines if line.data == "picture_line"], plate)
        else:
            self._read_list([line for line in lines if line.data == "entries"])
        self.layer = Layer(self.name, tuple(self._given.values()), is_picture, reading.whole(block))

    def excuses(self, key: str) -> bool:
        """Whether this layer may well mean to give the key an action."""
        return self._all_spoilt or key in self._spoilt

    def _belongs(self, line: Node) -> bool:
        """Whether a line is a layer's; report a statement of another block and return False."""
        first = tokens(line)[0]
        if first not in STATEMENT_BLOCKS or first in self._keys or self._cells.knows(first):
            return True
        report_misplaced(self._reading, str(first), "layer", self._reading.span(first))
        self._all_spoilt = True
        return False

    def _check_mixture(self, lines: list[Node]) -> None:
        """Report the first line that is of another kind than the layer's first one."""
        other = next((line for line in lines if line.data != lines[0].data), None)
        if other is None:
            return
        self._all_spoilt = True
        found = "a list" if other.data == "entries" else "a picture"
        first = "picture" if other.data == "entries" else "list"
        self._reading.report(
            "list-and-picture",
            self._reading.whole(other),
            f"this line is part of {found}, but the layer starts as a {first}",
            help="write `KEY = CELL` for the keys that change, or else one cell for every key",
        )

    def _read_list(self, lines: list[Node]) -> None:
        for line in lines:
            words = tokens(line)
            for key, cell in zip(words[::2], words[1::2], strict=True):
                name = known_key(self._reading, key, self._keys)
                first = self._given.get(name.text)
                if first is None:
                    self._give(name, cell)
                else:
                    self._report_doubled(name, first)

    def _read_picture(self, lines: list[Node], plate: Plate) -> None:
        if self._all_spoilt or not has_plate_shape(self._reading, lines, plate):
            self._all_spoilt = True
            for line in lines:
                for cell in tokens(line):
                    if cell != "~":
                        self._cells.action_of(cell)
            return
        for line, plate_line in zip(lines, plate, strict=True):
            for cell, key in zip(tokens(line), plate_line.keys, strict=True):
                if cell != "~":
                    self._give(Word(key.name.text, self._reading.span(cell)), cell)

    def _give(self, key: Word, cell: Token) -> None:
        action = self._cells.action_of(cell)
        if action is None:
            self._spoilt.add(key.text)
        else:
            self._given[key.text] = Assignment(key, self._reading.word(cell), action)

    def _report_doubled(self, name: Word, first: Assignment) -> None:
        self._reading.report(
            "doubled-cell",
            name.span,
            f"`{name}` already has an action in this layer",
            help="keep one of the two",
            notes=[Note(f"`{name}` is given `{first.cell}` here", first.key.span)],
        )


def _base(reading: Reading, draft: LayerDraft | None, plate: Plate) -> Layer:
    """Return the base layer with an action for every key, in plate order."""
    given = {cell.key.text: cell for cell in draft.layer.cells} if draft else {}
    cells = []
    for key in (key for line in plate for key in line.keys):
        cell = given.get(key.name.text)
        if cell is None and key.own_action is not None:
            cell = Assignment(key.name, key.name, key.own_action)
        if cell is not None:
            cells.append(cell)
        elif reading.is_whole and not (draft and draft.excuses(key.name.text)):
            _report_idle(reading, key)
    if draft is None:
        span = plate[0].span.to(plate[-1].span) if plate else reading.first_word()
        return Layer(Word(BASE, span), tuple(cells), False, span)
    return Layer(draft.name, tuple(cells), draft.layer.is_picture, draft.layer.span)


def _report_idle(reading: Reading, key: Key) -> None:
    name = key.name
    reading.report(
        "key-without-action",
        name.span,
        f"`{name}` is the name of no usage, and `layer base` gives it no action",
        help=f"write `{name} = CELL` in `layer base`, or name the key after what it does",
    )
