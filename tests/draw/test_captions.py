"""Captions: short forms that keep the key, and no two actions that look alike."""

from __future__ import annotations

import itertools
import re

import pytest

from matrixgen.computer.setting import layout_of
from matrixgen.draw import Captions, legend_lines
from matrixgen.draw.caps import LEFT_ALONE
from matrixgen.draw.caption_form import BELOW
from matrixgen.draw.layer_text import drawn_layers, folded
from matrixgen.draw.sets import beside_in_words
from matrixgen.emit.sheet.front import layer_pictures
from matrixgen.model import (
    ChangeBase,
    HoldLayer,
    InTurn,
    Keyboard,
    LatchLayer,
    Media,
    Nothing,
    OnceLayer,
    OnceModifiers,
    Press,
    StartBootLoader,
    TapHold,
)
from matrixgen.model.actions import UnlatchLayers
from matrixgen.usages import usage_of, usages, words, words_of
from matrixgen.usages.keycaps import forms_of, keycap_of_usage
from matrixgen.usages.media import media_usages
from tests.amounts import amount
from tests.examples.shipped import NAMES, example
from tests.generator.files import draft
from tests.texts import keyboard_in

DRAWN = amount("MATRIXGEN_DRAWN", suite=8, long=2000)
LOW = HoldLayer("low")


@pytest.mark.parametrize(
    ("action", "room", "caption"),
    [
        (Press(0x29), 6, "Esc"),
        (Press(0x2A), 9, "Backspace"),
        (Press(0x2A), 6, "Bckspc"),
        (Press(0x1E, 0x02), 7, "Shift+1"),
        (Press(0x1E, 0x02), 3, "S+1"),
        (Press(0x36), 5, ","),
        (Press(0x37), 5, "."),
        (Press(0xA5), 4, "7:A5"),
        (Media(0x0C, 0x1B0), 16, "usage 0x0C 0x1B0"),
        (Media(0x0C, 0x1B0), 6, "C:1B0"),
        (Press(0x1D, 0x03), 5, "C+S+Z"),
        (Press(0x1D, 0x03), 4, "CS+Z"),
        (Press(0, 0x20), 6, "RShift"),
        (Press(0x43), 2, "F10"),
        (Press(0x54), 9, "KP/"),
        (Press(0x5F), 9, "KP7"),
        (Press(0x58), 9, "KPEnter"),
        (Media(0x0C, 0xE9), 5, "VUp"),
        (LOW, 6, ">low"),
        (LatchLayer("lower"), 5, ">>low"),
        (OnceLayer("low"), 9, "1>low"),
        (ChangeBase("b"), 9, "=>b"),
        (OnceModifiers(0x02), 12, "1>Shift"),
        (OnceModifiers(0x02), 4, "1>Sh"),
        (TapHold(Press(0x2C), LOW), 11, "Space/>low"),
        (TapHold(Press(0x2C), LOW), 8, "Spc/>low"),
        (Nothing(), 9, "nothing"),
        (StartBootLoader(), 9, "boot"),
        (UnlatchLayers(), 9, "unlatch"),
        (None, 3, LEFT_ALONE),
    ],
)
def test_a_caption_says_what_a_key_does_in_little_room(action, room, caption):
    assert Captions().caption(action, room) == caption


def test_the_legend_explains_each_short_form_and_what_is_written_in_full_needs_none():
    captions = Captions()
    used = [captions.caption(one, 4) for one in (None, Press(0x1E, 0x02), Press(0x2C), Press(4))]
    assert used == ["--", "S+1", "Spc", "A"]
    assert captions.legend(used) == (
        ("--", "left to the layers below"),
        ("S+", "Shift+"),
        ("Spc", "Space"),
    )
    assert legend_lines(captions.legend(used), 40) == [
        "--   left to the layers below",
        "S+   Shift+",
        "Spc  Space",
    ]


def test_what_differs_in_nothing_that_can_be_seen_gets_a_number():
    slow = TapHold(Press(4), LOW, after_ms=300)
    captions = Captions()
    assert captions.caption(TapHold(Press(4), LOW), 6) == "A/>low"
    text = captions.caption(slow, 6)
    assert text == "#1"
    assert captions.legend([text]) == (("#1", slow.phrase),)


def all_actions():
    keys = [Press(usage) for usage in usages() if not 0xE0 <= usage <= 0xE7]
    joined = [Press(usage, 0x02) for usage in usages() if not 0xE0 <= usage <= 0xE7]
    modifiers = [Press(0, 1 << bit) for bit in range(8)]
    once = [OnceModifiers(1 << bit) for bit in range(8)]
    return [*keys, *joined, *modifiers, *once, *(Media(*one) for one in media_usages())]


@pytest.mark.parametrize("room", range(2, 12))
def test_no_two_of_all_the_keys_there_are_have_the_same_caption(room):
    captions = Captions()
    actions = all_actions()
    shown = [captions.caption(one, room) for one in actions]
    assert len(set(shown)) == len({one.phrase for one in actions})
    assert all(text.isascii() and " " not in text for text in shown)


def test_no_short_form_is_another_key_s_word_or_the_sign_for_left_alone():
    for usage in usages():
        keycap = keycap_of_usage(words_of(usage), usage)
        for form in itertools.islice(forms_of(keycap), 1, None):
            assert usage_of(form) in (None, usage), (keycap, form)
    assert "De" in forms_of("Del"), "no key is called so"
    assert LEFT_ALONE not in {*words(), *(keycap_of_usage(words_of(one), one) for one in usages())}
    assert len(LEFT_ALONE) > 1, "a single character is what a key can have"


def test_every_key_of_the_keypad_begins_alike():
    keypad = [one for one in usages() if words_of(one)[0].startswith("Keypad")]
    assert all(keycap_of_usage(words_of(one), one).startswith("KP") for one in keypad)


def test_no_keycap_is_a_word_of_another_key():
    for usage in usages():
        assert usage_of(keycap_of_usage(words_of(usage), usage)) in (None, usage), usage


def looks_of(keyboard: Keyboard, width: int):
    """Return what is shown of each key on each layer: by `show`, and on the sheet."""
    captions = Captions(layout=layout_of(keyboard))
    for layer, picture in zip(keyboard.layers, layer_pictures(keyboard), strict=True):
        keys = [key.name.text for key in keyboard.keys if layer.action_of(key.name.text)]
        phrases = {key: captions.phrase(layer.action_of(key)) for key in keys}
        yield phrases, {key: captions.caption(layer.action_of(key), width) for key in keys}
        yield phrases, {key: BELOW.join(picture.caps[key].lines) for key in keys}


def assert_none_are_alike(keyboard: Keyboard, width: int):
    for phrases, shown in looks_of(keyboard, width):
        means: dict[str, str] = {}
        for key, text in shown.items():
            assert means.setdefault(text, phrases[key]) == phrases[key]
            assert text != LEFT_ALONE
            if keyboard.computer and len(text) == 1:
                assert text.casefold() in phrases[key].casefold()
            else:
                assert usage_of(text) in (None, usage_of(phrases[key]))


@pytest.mark.parametrize("width", [3, 5, 8])
@pytest.mark.parametrize("name", NAMES)
def test_no_two_actions_of_an_example_are_shown_alike(name, width):
    assert_none_are_alike(example(name).keyboard, width)


@pytest.mark.parametrize("seed", range(DRAWN))
def test_no_two_actions_of_a_drawn_file_are_shown_alike(seed):
    assert_none_are_alike(keyboard_in(draft(seed, sound=seed % 2 == 0).text), 3 + seed % 6)


CAPTION = re.compile(r'(?:type )?"[^"]*"\S*|\S+')
"""A caption has blanks only where it is a text."""


@pytest.mark.parametrize("width", [40, 60, 80, 120])
@pytest.mark.parametrize("name", NAMES)
def test_each_key_of_an_example_is_there_and_none_is_a_mere_number(name, width):
    keyboard = example(name).keyboard
    drawn = drawn_layers(keyboard.keys, keyboard.layers, width)
    for layer, lines in zip(keyboard.layers, drawn.layers, strict=True):
        beside = beside_in_words(layer, keyboard.keys, Captions())
        below = tuple(piece for line in beside for piece in folded(line, width))
        keys = lines[: len(lines) - len(below)]
        assert lines == (*keys, *below)
        assert len(CAPTION.findall(" ".join(keys))) == len(keyboard.keys)
        assert max(map(len, lines)) <= width
    numbers = [short for short, _ in drawn.legend if short.startswith("#")]
    assert width < 80 or numbers == [] or keyboard.has(InTurn)  # a long text has no short form
