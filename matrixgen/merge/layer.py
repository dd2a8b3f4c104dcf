"""One layer in three versions: its cells by key, and the form that its lines have."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.merge.cells import LayerLines, Words, frame_of, list_lines, parts_of, picture_lines
from matrixgen.merge.context import Entry, MergeContext
from matrixgen.merge.labels import block_label
from matrixgen.merge.sides import most_similar
from matrixgen.merge.statement import with_comments
from matrixgen.merge.three_way import Id, Three, choose
from matrixgen.source.tree import BlockTree, Piece, Statement

ById = Mapping[Id, Statement]
OURS, THEIRS = 1, 2
NO_LINES = LayerLines((), (), is_picture=False)


class LayerMerge:
    """The merge of one layer. A side that does not have the layer is None among `blocks`."""

    def __init__(
        self, context: MergeContext, block: tuple[str, str], blocks: Three[BlockTree]
    ) -> None:
        self._context, self._block = context, block
        self._frames = [
            frame_of(one.statements, side.keys_of_lines) if one and side else None
            for one, side in zip(blocks, context.sides, strict=True)
        ]
        self._cells = [
            side.cells.get(block[1], {}) if frame and side else {}
            for frame, side in zip(self._frames, context.sides, strict=True)
        ]
        self._clashing: list[str] = []
        self._values: dict[str, Words | None] = self._merged_cells()

    def _merged_cells(self) -> dict[str, Words | None]:
        """Return what each key does, and None for a key that the layer leaves alone."""
        steps, preferred = self._context.steps, self._context.preferred
        on_plate, own = {*self._context.order, *steps}, {*preferred.order, *preferred.steps}
        values: dict[str, Words | None] = {}
        for key in dict.fromkeys(key for n in (OURS, THEIRS, 0) for key in self._keys(n)):
            three = [cells.get(key) for cells in self._cells]
            choice = choose(three, self._context.prefer)
            value = three[OURS if choice.side == "ours" else THEIRS]
            is_lost = value is not None and key not in on_plate
            if choice.is_clash or is_lost:
                self._clashing.append(key)
            values[key] = None if is_lost and key not in own else value
        return values

    def _keys(self, number: int) -> list[str]:
        frame = self._frames[number]
        return list(frame.all_keys) if frame else []

    def entries(self) -> list[Entry]:
        """Return the lines of the layer, and keep what clashes in them."""
        number = self._frame_number()
        frame, other = self._frames[number], self._frames[OURS + THEIRS - number]
        if frame is None:
            return []
        if frame.is_picture:
            steps = self._context.every_step
            of_steps = {key: words for key, words in self._values.items() if key in steps}
            of_keys = {key: words for key, words in self._values.items() if key not in steps}
            rows = picture_lines(self._context.plate, self._rows(number), of_keys)
            lines = self._with_comments(rows, self._row_versions())
            lines += self._list_lines(frame.beside or NO_LINES, other, of_steps)
        else:
            lines = self._list_lines(frame, other, self._values)
        self._keep_clashes()
        return [Entry(self._block, id, line) for id, line in lines]

    def _list_lines(
        self, frame: LayerLines, other: LayerLines | None, values: dict[str, Words | None]
    ) -> list[tuple[Id, Statement]]:
        made = list_lines(frame, other.as_list if other else None, values)
        return self._with_comments(made, self._line_versions(frame))

    def _frame_number(self) -> int:
        """Return the side whose lines are kept: the one that laid the layer out anew."""
        base, ours, theirs = self._frames
        if ours is None or theirs is None:
            return OURS if ours else THEIRS
        if ours.is_picture != theirs.is_picture:
            return self._form_number(base, ours)
        if base is None or base.is_picture != ours.is_picture:
            return OURS
        return THEIRS if _same_layout(base, ours) else OURS

    def _form_number(self, base: LayerLines | None, ours: LayerLines) -> int:
        """Return whose form it is where one side has a list and the other one a picture."""
        is_old = base is not None and base.is_picture == ours.is_picture
        number = THEIRS if is_old else OURS
        steps = self._context.every_step
        of_keys = (words for key, words in self._values.items() if key not in steps)
        fits = all(words is None or len(words) == 1 for words in of_keys)
        a_list = OURS if not ours.is_picture else THEIRS
        return number if fits else a_list

    def _rows(self, number: int) -> dict[Id, tuple[LayerLines, int]]:
        """Return the rows of both sides by the lines of the plate; the frame's own first."""
        rows: dict[Id, tuple[LayerLines, int]] = {}
        for side in (number, OURS + THEIRS - number):
            frame = self._frames[side]
            if frame and frame.is_picture:
                for row, id in enumerate(self._context.line_ids[side]):
                    rows.setdefault(id, (frame, row))
        return rows

    def _row_versions(self) -> list[ById]:
        """Return the rows of a picture in each version, by the names of the plate's lines."""
        return [
            {("row", id): row for id, row in zip(ids, frame.statements, strict=True)}
            if frame and frame.is_picture
            else {}
            for frame, ids in zip(self._frames, self._context.line_ids, strict=True)
        ]

    def _line_versions(self, frame: LayerLines) -> list[ById]:
        """Return the lines of a list in each version, by the names of the frame's."""
        versions: list[ById] = []
        for one in (other.as_list if other else None for other in self._frames):
            pairs = most_similar(frame.keys, one.keys).items() if one else ()
            same: ById = {("cells", frame.keys[n][0]): one.statements[m] for n, m in pairs if one}
            versions.append(same)
        return versions

    def _with_comments(
        self, lines: list[tuple[Id, Statement]], versions: list[ById]
    ) -> list[tuple[Id, Statement]]:
        found = []
        for id, line in lines:
            three = [version.get(id) for version in versions]
            found.append((id, self._commented(id, line, three)))
        return found

    def _commented(self, id: Id, line: Statement, three: list[Statement | None]) -> Statement:
        """Return a line with the comments of both sides."""
        base, ours, theirs = three
        if ours is None or theirs is None:
            return line
        merged = with_comments(line, (base, ours, theirs), self._context.prefer)
        self._context.clash_in(self._block, id, line, merged.clashes)
        return merged.statement

    def _keep_clashes(self) -> None:
        for key in self._clashing:
            label = f"key {key} on {block_label(self._block)}"
            for number in (OURS, THEIRS):
                self._context.clash(self._block, self._line_of(number, key), label)

    def _line_of(self, number: int, key: str) -> Id:
        """Return the name of the line of a side that a key stands on."""
        frame = self._frames[number]
        if frame and frame.beside and key in frame.beside.all_keys:
            return ("cells", next(keys[0] for keys in frame.beside.keys if key in keys))
        for place, keys in enumerate(frame.keys if frame else ()):
            if frame and key in keys:
                return (
                    ("row", self._context.line_ids[number][place])
                    if frame.is_picture
                    else ("cells", keys[0])
                )
        return ("cells", key)


def _same_layout(one: LayerLines, two: LayerLines) -> bool:
    """Whether the cells that two versions share stand on the same lines, as far apart."""
    common = {k for keys in one.keys for k in keys} & {k for keys in two.keys for k in keys}
    return _layout(one, common) == _layout(two, common)


def _layout(frame: LayerLines, common: set[str]) -> list[list[tuple[str, tuple[Piece, ...]]]]:
    lines: list[list[tuple[str, tuple[Piece, ...]]]] = []
    for number in range(len(frame.statements)):
        parts = parts_of(frame, number)
        lines.append([(key, part.lead) for key, part in parts.items() if key in common])
    return [line for line in lines if line]
