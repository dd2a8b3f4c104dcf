"""The blocks `layer`: the base layer, which has an action for every key, and those above it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import TYPE_CHECKING

from matrixgen.model.actions import Nothing
from matrixgen.model.layers import BASE, Cell, Layer
from matrixgen.model.plate import Key, Plate, stem_of
from matrixgen.model.text import Number, Word
from matrixgen.source.blocks.keys import Keys
from matrixgen.source.blocks.layer_reader import LayerReader
from matrixgen.source.blocks.needs import report_circles
from matrixgen.source.blocks.steps import Steps
from matrixgen.source.blocks.together import TogetherReader
from matrixgen.source.letters import is_letter
from matrixgen.source.names import LAYER, Names
from matrixgen.source.reporter import Reporter, tokens, trees
from matrixgen.source.vocabulary import Vocabulary
from matrixgen.usages import words

if TYPE_CHECKING:
    from matrixgen.source.letters import Letters
    from matrixgen.source.syntax import Node


def layer_names(file: Node) -> list[str]:
    """Return the names of all layers, the base layer's even if the file does not name it."""
    named = (str(tokens(block)[0]) for block in trees(file) if block.data == "layer")
    return [BASE, *named]


def layers_of(
    reporter: Reporter,
    file: Node,
    plate: Plate,
    keys: Keys,
    vocabulary: Vocabulary,
    together_ms: Number | None,
) -> tuple[Layer, ...]:
    """Return the base layer, filled up from the keys' own names, and then the others in order.

    `together_ms` is the time that the file gives to sets of keys which have none of their own.
    """
    names = Names(reporter, LAYER)
    most = reporter.limits.layers
    sets = TogetherReader(reporter, keys, vocabulary, together_ms)
    readers = [
        LayerReader(reporter, block, plate, keys, vocabulary, sets)
        for block in islice(_defined(reporter, file, names), most + 1)
    ]
    reporter.at_most(most, [reader.name.span for reader in readers], "layer", "a keyboard")
    given = [reader for reader in readers if reader.name.text == BASE]
    others = [reader.layer for reader in readers if reader.name.text != BASE]
    report_circles(reporter, others)
    if not readers:
        return (_of_names(plate, keys.steps),)
    base = _base(reporter, given[0] if given else None, plate, keys.steps, vocabulary.letters)
    return base, *others


def _defined(reporter: Reporter, file: Node, names: Names) -> Iterator[Node]:
    """Yield the blocks of layers that have a name of their own."""
    for block in trees(file):
        if block.data == "layer" and names.define(reporter.word(tokens(block)[0])):
            yield block


def _of_names(plate: Plate, steps: Steps) -> Layer:
    """Return the base layer of a file without layers: keys whose names say nothing are open."""
    cells = [
        Cell(key.name, key.name, key.own_action or Nothing(), given=False) for key in plate.keys
    ]
    cells += steps.cells({})
    return Layer(name=Word(BASE, plate.span), cells=tuple(cells), is_picture=False, span=plate.span)


def _base(
    reporter: Reporter,
    reader: LayerReader | None,
    plate: Plate,
    steps: Steps,
    letters: Letters,
) -> Layer:
    """Return the base layer with an action for every key, in plate order, and every step."""
    given = reader.layer.by_key if reader else {}
    cells = []
    for key in plate.keys:
        cell = given.get(key.name.text)
        if cell is None and key.own_action is not None:
            cell = Cell(key.name, key.name, key.own_action, given=False)
        if cell is not None:
            cells.append(cell)
        elif reporter.is_whole and not _may_be_given(reporter, reader, key):
            _report_idle(reporter, key, letters)
    return Layer(
        name=reader.name if reader else Word(BASE, plate.span),
        cells=(*cells, *steps.cells(given)),
        is_picture=reader.layer.is_picture if reader else False,
        together=reader.layer.together if reader else (),
        span=reader.layer.span if reader else plate.span,
    )


def _may_be_given(reporter: Reporter, reader: LayerReader | None, key: Key) -> bool:
    """Whether a mistake that was reported may be the reason why a key has no action."""
    name = key.name.text
    return reporter.was_dropped(name) or (reader is not None and reader.may_give(name))


def _report_idle(reporter: Reporter, key: Key, letters: Letters) -> None:
    """Report a key that does nothing, unless the file's layout is lost that may have it."""
    name, is_sign = key.name, is_letter(stem_of(key.name.text))
    if is_sign and letters.is_lost:
        return
    says = "a usage name"
    helps = [f"write `{name} = CELL` in `layer base`, or name the key after what it does"]
    if is_sign and letters.layout:
        says = f"on a key of the layout `{letters.layout.name}`"
    elif is_sign:
        helps.append("for the key of a letter, say what the computer is set to: `computer de`")
    similar = reporter.similar_help(name.text, words())
    reporter.report(
        "key-without-action",
        name.span,
        f"`{name}` is not {says}, and `layer base` gives it no action",
        help=[*helps, *([similar] if similar else [])],
    )
