"""Layers drawn in characters below each other, with one legend for all of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.draw.caption_form import Legend
from matrixgen.draw.captions import Captions
from matrixgen.draw.plate_text import plate_rows, room_of, widest_unit
from matrixgen.draw.sets import beside_in_words
from matrixgen.layouts import HostLayout
from matrixgen.model import Key, Layer
from matrixgen.record import Record

LEAST_ROOM = 3
"""Characters that a key of one unit has at least: `F12` has three."""

NARROWEST, STEP = 3.0, 0.1
"""Characters of a key unit, at least, and how it gets smaller until all lines are short enough."""


class DrawnLayers(Record):
    """Each layer as lines of text, in the order in which they were given, and their legend."""

    layers: tuple[tuple[str, ...], ...]
    legend: Legend


def drawn_layers(
    keys: Sequence[Key], layers: Sequence[Layer], width: int, layout: HostLayout | None = None
) -> DrawnLayers:
    """Return layers in lines of at most `width` characters.

    A row of keys that is too long, even with the shortest captions, goes on in the next line. With
    the `layout` of the computer, keys show what appears.
    """
    unit = max(NARROWEST, widest_unit(keys, width))
    drawn = _drawn(keys, layers, unit, layout)
    while unit > NARROWEST and any(len(line) > width for lines in drawn.layers for line in lines):
        unit = max(NARROWEST, unit - STEP)
        drawn = _drawn(keys, layers, unit, layout)
    short = [
        tuple(piece for line in lines for piece in folded(line, width)) for lines in drawn.layers
    ]
    return DrawnLayers(tuple(short), drawn.legend)


def folded(line: str, width: int) -> Iterator[str]:
    """Yield a line in pieces of at most `width` characters, broken at spaces if there are any."""
    while len(line) > width:
        end = line.rfind(" ", len(line) - len(line.lstrip()), width + 1)
        end = end if end > 0 else width
        yield line[:end].rstrip()
        line = "  " + line[end:].lstrip()
    yield line


def _drawn(
    keys: Sequence[Key], layers: Sequence[Layer], unit: float, layout: HostLayout | None
) -> DrawnLayers:
    captions = Captions(layout=layout)
    drawn: list[tuple[str, ...]] = []
    used: list[str] = []
    for layer in layers:
        words = {
            key.name.text: captions.caption(
                layer.action_of(key.name.text), room_of(key, unit, LEAST_ROOM)
            )
            for key in keys
        }
        used += words.values()
        rows = (line for row in plate_rows(keys, (words,), unit) for line in row)
        drawn.append((*rows, *beside_in_words(layer, keys, captions)))
    return DrawnLayers(tuple(drawn), captions.legend(used))
