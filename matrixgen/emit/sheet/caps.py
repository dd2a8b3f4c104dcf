"""What is written on each key, layer by layer."""

from __future__ import annotations

from matrixgen.draw import Captions
from matrixgen.draw.caption_form import BELOW, Legend
from matrixgen.model import Key, Keyboard, Layer
from matrixgen.record import Record

LETTERS_A_UNIT = 10
"""Letters that fit on a key of one unit."""

MOST_MM, ROOM_MM = 4.2, 16.0
"""The largest letters, and how much of a key's width they may take."""

LETTER_WIDTH = 0.58
"""How wide a letter is, for its height: between narrow and wide letters of common typefaces."""


class Cap(Record, kw_only=True):
    """What a key does on a layer: the words on its cap, and the whole of it in words.

    `given` is whether the layer gives it; otherwise it is inherited. `size` is the letters' height
    in millimetres.
    """

    lines: tuple[str, ...]
    phrase: str
    given: bool
    size: float


class LayerCaps(Record, kw_only=True):
    """The cap of each key on a layer, by the key's name, and the legend of their short forms."""

    by_key: dict[str, Cap]
    legend: Legend


def caps_of(keyboard: Keyboard, layer: Layer, captions: Captions) -> LayerCaps:
    """Return the caps of a layer: of a key that it leaves alone, that of the base layer."""
    base = keyboard.layers[0]
    caps = {
        key.name.text: _cap(key, layer.by_key.get(key.name.text) is not None, layer, base, captions)
        for key in keyboard.keys
    }
    used = (BELOW.join(cap.lines) for cap in caps.values())
    return LayerCaps(by_key=caps, legend=captions.legend(used))


def _cap(key: Key, given: bool, layer: Layer, base: Layer, captions: Captions) -> Cap:
    action = layer.action_of(key.name.text) or base.action_of(key.name.text)
    if action is None:
        return Cap(lines=(key.name.text,), phrase="", given=given, size=MOST_MM)
    lines = tuple(captions.caption(action, max(4, int(LETTERS_A_UNIT * key.width))).split(BELOW))
    size = min(MOST_MM if len(lines) == 1 else 3.4, _size(lines, key.width))
    return Cap(lines=lines, phrase=captions.phrase(action), given=given, size=size)


def _size(lines: tuple[str, ...], width: float) -> float:
    room = ROOM_MM + (width - 1) * 19.05
    return round(room / (max(map(len, lines)) * LETTER_WIDTH), 2)
