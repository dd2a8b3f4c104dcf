"""The plate from the front, one picture a layer."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.computer.setting import layout_of
from matrixgen.draw import Captions, legend_lines
from matrixgen.draw.caption_form import BELOW, Legend
from matrixgen.draw.sets import beside_in_words
from matrixgen.emit.sheet.bare_plate import BarePlate, bare_plate
from matrixgen.emit.sheet.caps import Cap, caps_of
from matrixgen.emit.sheet.frame import (
    Box,
    Frame,
    frame_of,
    housing_shapes,
    number,
    place,
    polyline,
    size_of,
)
from matrixgen.model import ComponentPlace, Key, Keyboard, Layer
from matrixgen.model.geometry import Point, corners_of
from matrixgen.model.knob_keys import knob_keys
from matrixgen.model.switch import UNIT_MM, centre_mm
from matrixgen.record import Record, changed

BESIDE_MM, ABOVE_MM, BELOW_MM = 5.0, 5.0, 16.0
TICK_MM, LABELLED_MM = 10, 50

LEGEND_MM, LEGEND_LETTER_MM = 4.6, 2.0
"""How far apart the lines of a legend are, and how much of the width a character of it takes."""


class KeyShape(Record, kw_only=True):
    """A key as SVG has it: corners of its cap, its middle, and where its size stands.

    `housings` are the corners of its stabiliser's two cut-outs. Where it is the switch of a knob,
    `knob` has that one's name and its radius.
    """

    name: str
    outline: str
    housings: tuple[str, ...]
    middle: Point
    turn: str
    size: str
    size_at: Point
    knob: tuple[str, float] | None = None


class Front(Record, kw_only=True):
    """All that the pictures of the layers share; `marks` says which findings are at a key."""

    box: Box
    keys: tuple[KeyShape, ...]
    bare: BarePlate
    ticks: tuple[tuple[float, str], ...]
    ruler_y: float
    marks: Mapping[str, str]


class LayerPicture(Record, kw_only=True):
    """One layer: its name, when it is on, what each key shows, and what short forms there mean.

    `beside` has what its sets of keys and its knobs do, in words.
    """

    name: str
    needs: tuple[str, ...]
    caps: dict[str, Cap]
    legend: Legend
    beside: tuple[str, ...] = ()


class LegendText(Record, kw_only=True):
    """A legend below the ruler: its lines, where the first one starts, and a box with room."""

    lines: tuple[tuple[float, str], ...]
    box: Box


def legend_below(front: Front, layer: LayerPicture) -> LegendText:
    """Return a layer's legend for a drawing that is a file of its own."""
    lines = legend_lines(layer.legend, int(front.box.width / LEGEND_LETTER_MM))
    top = front.box.y + front.box.height
    places = tuple((top + place * LEGEND_MM, line) for place, line in enumerate(lines))
    height = front.box.height + len(lines) * LEGEND_MM
    return LegendText(lines=places, box=changed(front.box, height=height))


def front_of(keyboard: Keyboard, marks: Mapping[str, str]) -> Front:
    """Return the plate as it is seen from the front."""
    plate = keyboard.plate
    frame, housings, knobs = frame_of(plate), housing_shapes(plate), knob_keys(plate)
    pressed = {one.called for one in knobs.values()}
    bare = bare_plate(plate)
    components = tuple(one for one in bare.components if one.called not in pressed)
    return Front(
        box=frame.box(BESIDE_MM, ABOVE_MM, BELOW_MM),
        keys=tuple(
            shape_of(key, housings.get(key.name.text, ()), knobs.get(key.name.text))
            for key in keyboard.keys
        ),
        bare=changed(bare, components=components),
        ticks=_ticks(frame),
        ruler_y=frame.bottom + 4,
        marks=marks,
    )


def layer_pictures(keyboard: Keyboard) -> tuple[LayerPicture, ...]:
    """Return every layer, the base first."""
    captions = Captions(between=BELOW, layout=layout_of(keyboard))
    return tuple(_picture(keyboard, layer, captions) for layer in keyboard.layers)


def _picture(keyboard: Keyboard, layer: Layer, captions: Captions) -> LayerPicture:
    needs = tuple(word.text for word in layer.needs)
    caps = caps_of(keyboard, layer, captions)
    return LayerPicture(
        name=layer.name.text,
        needs=needs,
        caps=caps.by_key,
        legend=caps.legend,
        beside=beside_in_words(layer, keyboard.keys, captions),
    )


def shape_of(
    key: Key, housings: tuple[str, ...] = (), knob: ComponentPlace | None = None
) -> KeyShape:
    """Return a key as it is drawn from the front, with its stabiliser or the knob that it is of."""
    corners = [(x * UNIT_MM, y * UNIT_MM) for x, y in corners_of(key)]
    middle, size = centre_mm(key), size_of(key)
    bottom = middle[1] + key.height * UNIT_MM / 2 - 1.6
    return KeyShape(
        name=key.name.text,
        outline=polyline(corners),
        housings=housings,
        middle=middle,
        turn=f"rotate({number(key.turned)} {place(middle).replace(',', ' ')})"
        if key.turned
        else "",
        size=size if size != "1" else "",
        size_at=(middle[0] + key.width * UNIT_MM / 2 - 1.8, bottom),
        knob=(knob.name.text, knob.size.room_mm / 2) if knob else None,
    )


def _ticks(frame: Frame) -> tuple[tuple[float, str], ...]:
    """Return the ruler's marks: where, and what stands there."""
    return tuple(
        (frame.left + at, str(at) if at % LABELLED_MM == 0 else "")
        for at in range(0, int(frame.width) + 1, TICK_MM)
    )
