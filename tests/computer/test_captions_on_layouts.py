"""Captions where a file says what its computer is set to: what appears, and texts."""

from __future__ import annotations

import pytest

from matrixgen.cli.fit_to_print import clean
from matrixgen.computer.setting import layout_of
from matrixgen.draw import Captions
from matrixgen.draw.layer_text import drawn_layers
from matrixgen.emit.legends.stickers import blocks_of
from matrixgen.emit.sheet.front import layer_pictures
from matrixgen.layouts import layout_named
from matrixgen.model import Keyboard, Press, TapHold
from matrixgen.model.actions import InTurn, Pause, Struck
from matrixgen.usages.key_stroke import KeyStroke
from tests.computer.pads import typed
from tests.texts import keyboard_in

GREETING = typed("Grüße", "de")
TURN = InTurn((Struck(KeyStroke(0x1D, 0x01)), Pause(20), *GREETING.steps))

SHOWN = [
    (Press(0x14, 0x40), 4, "@", ()),
    (Press(0x2F), 4, "Ü", ()),
    (Press(0x1C), 4, "Z", ()),
    (Press(0x1C, 0x01), 6, "Ctrl+Z", ()),
    (Press(0x30), 4, "+", ()),
    (Press(0x1E, 0x02), 4, "!", ()),
    (Press(0x04, 0x02), 4, "S+A", (("S+", "Shift+"),)),
    (Press(0x59), 4, "KP1", (("KP", "keypad"),)),
    (Press(0x28), 5, "Enter", ()),
    (Press(0x2E), 6, "dead ´", ()),
    (Press(0x2E), 3, "d´", (("d´", "dead key ´"),)),
    (Press(0x30, 0x01), 18, "Ctrl+RightBracket", ()),
    (typed("ê", "de"), 4, "Ê", ()),
    (GREETING, 7, '"Grüße"', ()),
    (GREETING, 6, '"Grü~"', (('"Grü~"', 'type "Grüße"'),)),
    (GREETING, 4, '"G~"', (('"G~"', 'type "Grüße"'),)),
    (TURN, 8, "Ctrl+Y~", (("Ctrl+Y~", 'Ctrl+Y, then wait 20 ms, then type "Grüße"'),)),
    (TapHold(Press(0x14, 0x40), Press(0, 0x02)), 7, "@/Shift", (("A/B", "tap A, hold B"),)),
]


@pytest.mark.parametrize(("action", "room", "caption", "legend"), SHOWN)
def test_a_caption_shows_what_appears(action, room, caption, legend) -> None:
    captions = Captions(layout=layout_named("de"))
    assert captions.caption(action, room) == caption
    assert captions.legend([caption]) == legend


def test_a_key_that_another_press_is_the_way_of_has_its_place() -> None:
    captions = Captions(layout=layout_named("br"))
    assert captions.caption(Press(0x14, 0x40), 20) == "/"
    assert captions.caption(Press(0x87), 20) == "International1"


FILE = """\
keyboard "Pad"
  computer de

plate
  line Q Y Semicolon Hi

layer base
  Q = @  Hi = type "Grüße an alle"

layer more
  Q = Ctrl+Z  Y = !
"""


def pad() -> Keyboard:
    return keyboard_in(FILE)


def test_all_drawings_show_the_same_signs() -> None:
    keyboard = pad()
    base, _ = layer_pictures(keyboard)
    caps = {name: "".join(cap.lines) for name, cap in base.caps.items()}
    assert caps == {"Q": "@", "Y": "Y", "Semicolon": "Ö", "Hi": '"Grüße a~"'}
    assert base.caps["Hi"].phrase == 'type "Grüße an alle"'
    assert ('"Grüße a~"', 'type "Grüße an alle"') in base.legend
    block = blocks_of(keyboard, (200.0, 200.0))[0]
    words = {word.text for sticker in block.stickers for word in sticker.words}
    assert {"@", "Y", "Ö", '"Grüße a~"', "!"} <= words
    drawn = drawn_layers(keyboard.keys, keyboard.layers, 60, layout_of(keyboard))
    text = "\n".join(line for layer in drawn.layers for line in layer)
    assert all(sign in text for sign in ("@", "Ö", '"G', "!", "Ctrl+Z")) and clean(text)
