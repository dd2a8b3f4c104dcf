"""One block `layer`: a picture of the plate, or a list of keys with what each does."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Note
from matrixgen.model.layers import Cell, Layer
from matrixgen.model.plate import Plate
from matrixgen.model.text import Word
from matrixgen.source.blocks.given_once import report_misplaced
from matrixgen.source.blocks.keys import Keys
from matrixgen.source.blocks.needs import needs_of
from matrixgen.source.blocks.pictures import SEE_THROUGH, is_picture_for
from matrixgen.source.blocks.together import TogetherReader
from matrixgen.source.phrases import phrase_length
from matrixgen.source.reporter import Reporter, every_token, tokens, trees
from matrixgen.source.statements import BLOCK_OF
from matrixgen.source.vocabulary import Vocabulary

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node, Token


class LayerReader:
    """Reads one block `layer`: what it gives, and the keys whose cells make no sense."""

    def __init__(
        self,
        reporter: Reporter,
        block: Node,
        plate: Plate,
        keys: Keys,
        vocabulary: Vocabulary,
        sets: TogetherReader,
    ) -> None:
        self._reporter = reporter
        self._plate = plate
        self._keys = keys
        self._vocabulary = vocabulary
        self._given: dict[str, Cell] = {}
        self._unclear: set[str] = set()
        self._all_unclear = False
        self.name = reporter.word(tokens(block)[0])
        together = [line for line in trees(block) if line.data == "together"]
        found = [one for one in trees(block) if one.data != "together" and self._belongs(one)]
        of_steps = [line for line in found if self._is_of_steps(line)]
        lines = [line for line in found if not self._is_of_steps(line)]
        is_picture = bool(lines) and lines[0].data == "picture_line"
        self._check_mixture(lines)
        if is_picture:
            self._read_picture([line for line in lines if line.data == "picture_line"])
        else:
            self._read_list([line for line in lines if line.data == "entries"])
        self._read_list(of_steps)
        self.layer = Layer(
            name=self.name,
            cells=tuple(self._given.values()),
            is_picture=is_picture,
            span=reporter.whole(block),
            needs=needs_of(reporter, block, vocabulary.layers),
            together=sets.sets_of(together),
        )

    def may_give(self, key: str) -> bool:
        """Whether this layer may well mean to give the key an action."""
        return self._all_unclear or key in self._unclear

    def _belongs(self, line: Node) -> bool:
        """Whether a line is a layer's; report a statement of another block and return False."""
        first = every_token(line)[0]
        knows = self._vocabulary
        if first not in BLOCK_OF or first in self._keys or knows.knows(first):
            return True
        if knows.begins_phrase(first):  # `once lasts` is a statement, `once Shift` a phrase
            return True
        report_misplaced(self._reporter, str(first), "layer", self._reporter.span(first))
        self._all_unclear = True
        return False

    def _is_of_steps(self, line: Node) -> bool:
        """Whether a line has entries for knobs alone: a picture may have it besides."""
        steps = self._keys.steps
        return line.data == "entries" and all(tokens(entry)[0] in steps for entry in trees(line))

    def _check_mixture(self, lines: list[Node]) -> None:
        """Report the first line that is of another kind than the layer's first one."""
        other = next((line for line in lines if line.data != lines[0].data), None)
        if other is None:
            return
        self._all_unclear = True
        found = "a list" if other.data == "entries" else "a picture"
        first = "picture" if other.data == "entries" else "list"
        self._reporter.report(
            "list-and-picture",
            self._reporter.whole(other),
            f"this line is part of {found}, but the layer starts as a {first}",
            help="write `KEY = CELL` for the keys that change, or else one cell for every key",
        )

    def _read_list(self, lines: list[Node]) -> None:
        for line in lines:
            for entry in trees(line):
                token, said = entry.children
                key = self._named(token)  # type: ignore[arg-type]  # so says the grammar
                first = self._given.get(key.text)
                if first is None:
                    self._give(key, said)
                else:
                    self._report_doubled(key, first)

    def _named(self, token: Token) -> Word:
        """Return a token as the name of a key, or of a step of a knob; report it if it is none."""
        return self._keys.steps.named(token) or self._keys.named(token)

    def _read_picture(self, lines: list[Node]) -> None:
        plate_lines = self._plate.lines
        fits = not self._all_unclear and is_picture_for(
            self._reporter, lines, plate_lines, self._vocabulary
        )
        if not fits:
            self._all_unclear = True
            self._look_at([cell for line in lines for cell in tokens(line)])
            return
        for line, plate_line in zip(lines, plate_lines, strict=True):
            for cell, key in zip(tokens(line), plate_line.keys, strict=True):
                if cell != SEE_THROUGH:
                    self._give(Word(key.name.text, self._reporter.span(cell)), cell)

    def _look_at(self, cells: Sequence[Token]) -> None:
        """Report unknown words of a picture whose shape is wrong, but those of phrases."""
        in_phrase = 0
        for place, cell in enumerate(cells):
            if self._vocabulary.begins_phrase(cell):
                in_phrase = phrase_length(cells[place:])
            elif not in_phrase and cell != SEE_THROUGH:
                self._vocabulary.action_of(cell)
            in_phrase = max(0, in_phrase - 1)

    def _give(self, key: Word, said: Token | Node) -> None:
        action = self._vocabulary.action_of(said)
        if action is None:
            self._unclear.add(key.text)
        else:
            self._given[key.text] = Cell(key, self._reporter.written(said), action)

    def _report_doubled(self, key: Word, first: Cell) -> None:
        self._reporter.report(
            "duplicate-cell",
            key.span,
            f"`{key}` already has an action in this layer",
            help="keep one of the two",
            notes=[Note(f"`{key}` is given `{first.written}` here", first.key.span)],
        )
