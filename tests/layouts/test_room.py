"""Questions to a layout: which key a sign is on, what Caps Lock does, what dead keys make."""

from __future__ import annotations

import subprocess
import sys

import pytest

from matrixgen.layouts import (
    KeyStroke,
    layout_language,
    layout_named,
    layout_names,
    nearest_layouts,
)
from matrixgen.usages.us_layout import KEYPAD_SIGNS, NUMBERS, SIGNS
from tests.examples.shipped import FOLDER

SHIFT, ALT_GR, OPTION = 0x02, 0x40, 0x04
A, C, E, SPACE = 0x04, 0x06, 0x08, 0x2C


def of(name, system=None):
    found = layout_named(name, system)
    assert found is not None
    return found


def test_us_is_what_the_older_table_of_the_us_layout_says():
    us = of("us")
    assert {usage: us.signs(usage)[:2] for usage in SIGNS} == SIGNS
    assert {usage: us.signs(usage)[0] for usage in KEYPAD_SIGNS} == KEYPAD_SIGNS
    assert {usage: us.signs(usage)[0] for usage in NUMBERS} == NUMBERS
    rest = set(us.usages) - {*SIGNS, *KEYPAD_SIGNS, *NUMBERS}
    assert rest == {0x64, 0x67, 0x85}
    letters = {usage for usage in SIGNS if us.caps_shifts(usage)}
    assert letters == {usage for usage, (plain, _) in SIGNS.items() if plain.isalpha()}
    for usage, signs in SIGNS.items():
        for modifiers, sign in zip((0, SHIFT), signs, strict=True):
            assert us.typed([KeyStroke(usage, modifiers)]) == sign
            if usage not in (0x2C, 0x32):
                assert us.way(sign) == (KeyStroke(usage, modifiers),)


@pytest.mark.parametrize(
    ("name", "sign", "usage"),
    [
        ("fr", "1", 0x1E),
        ("fr", "&", 0x1E),
        ("fr", "A", 0x14),
        ("de", "z", 0x1C),
        ("de", "ẞ", 0x2D),
        ("de", "´", 0x2E),
        ("de", "@", 0x14),
        ("de", "<", 0x64),
        ("us", "<", 0x36),
        ("us", "1", 0x1E),
        ("tr", "I", 0x0C),
        ("tr", "ı", 0x0C),
        ("tr", "i", 0x34),
        ("tr", "İ", 0x34),
        ("us", "İ", None),
        ("us", "ı", None),
        ("gr", "σ", 0x16),
        ("gr", "Σ", 0x16),
        ("gr", "ς", 0x1A),
        ("ru", "Ф", 0x04),
        ("br", "/", 0x87),
        ("de", "+", 0x30),
        ("us", "é", None),
    ],
)
def test_a_sign_is_on_a_key(name, sign, usage):
    assert of(name).switch_of(sign) == usage


def test_a_letter_in_two_code_points_is_the_letter():
    assert of("fr").switch_of("e\u0301") == of("fr").switch_of("é") == 0x1F
    assert of("fr").way("e\u0301") == (KeyStroke(0x1F),)


@pytest.mark.parametrize(
    ("system", "sign", "way"),
    [
        (None, "€", [(E, ALT_GR)]),
        ("macos", "€", [(E, OPTION)]),
        ("macos", "@", [(0x0F, OPTION)]),
        (None, "é", [(0x2E, 0), (E, 0)]),
        (None, "^", [(0x35, 0), (SPACE, 0)]),
        (None, "´", None),
        ("windows", "´", [(0x2E, 0), (SPACE, 0)]),
        ("linux", "´", [(0x2E, 0), (0x2E, 0)]),
        ("linux", "ć", [(0x2E, 0), (C, 0)]),
        (None, "ć", None),
        (None, "あ", None),
    ],
)
def test_a_german_layout_types(system, sign, way):
    wanted = None if way is None else tuple(KeyStroke(*one) for one in way)
    assert of("de", system).way(sign) == wanted


def test_which_signs_some_system_has():
    de = of("de")
    assert de.has_somewhere("´") and de.has_somewhere("ć") and not de.has_somewhere("あ")


def test_a_key_of_few_keyboards_is_the_last_choice():
    assert of("br").way("/") != (KeyStroke(0x87),)
    assert of("us").way("<") == (KeyStroke(0x36, SHIFT),)
    assert of("fr", "linux").way("<") == (KeyStroke(0x64),)


def test_dead_keys_without_a_letter_of_theirs():
    acute, q = KeyStroke(0x2E), KeyStroke(0x14)
    assert of("de", "linux").typed([acute, q]) == ""
    assert of("de", "windows").typed([acute, q]) == "´q"
    assert of("de", "macos").typed([acute, q]) == "´q"
    assert of("de", "windows").typed([acute, KeyStroke(C)]) == ""  # nobody told what it makes
    assert of("de").typed([acute]) == ""
    assert of("de").typed([acute, KeyStroke(0x28), KeyStroke(E)]) == "e"


def test_the_apostrophe_of_a_layout_for_programmers_is_a_dead_key_and_space():
    for system in (None, "windows", "macos"):
        assert of("us(intl)", system).way("'") == (KeyStroke(0x34), KeyStroke(SPACE))


def test_shortcuts_type_nothing():
    ctrl, alt, gui = 0x01, 0x04, 0x08
    for modifiers in (ctrl, gui, alt):
        assert of("de", "linux").typed([KeyStroke(0x14, modifiers)]) == ""
    assert of("us").typed([KeyStroke(A, ALT_GR)]) == ""
    assert of("de", "windows").typed([KeyStroke(0x14, ctrl | alt)]) == "@"
    assert of("de", "macos").typed([KeyStroke(0x0F, ALT_GR)]) == "@"


def test_caps_lock_shifts_letters_and_on_windows_the_german_number_row():
    strokes = [KeyStroke(A), KeyStroke(0x1E), KeyStroke(0x33, SHIFT)]
    assert of("de").typed(strokes, caps=True) == "A1ö"
    assert of("de", "macos").typed(strokes, caps=True) == "A1ö"
    assert of("de", "windows").typed(strokes, caps=True) == "A!ö"
    assert of("de").caps_shifts(A) and not of("de").caps_shifts(0x1E)
    assert of("de", "windows").caps_shifts(0x1E)


def test_dead_keys_show_the_sign_that_they_add():
    de = of("de")
    assert de.signs(0x2E)[:2] == ("´", "`") and de.is_dead(0x2E, 0) and not de.is_dead(A, 0)
    assert de.signs(0xE1) == (None,) * 4 and not de.is_dead(0xE1, 0)


def test_alphabets():
    assert of("de").has_latin and of("us(dvorak)").has_latin
    assert not of("ru").has_latin and not of("gr").has_latin


@pytest.mark.parametrize(
    ("word", "first"),
    [
        ("german", "de"),
        ("us-intl", "us(intl)"),
        ("fr(nowhere)", "fr"),
        ("DE", "de"),
        ("greek", "gr"),
    ],
)
def test_who_misspells_a_layout_gets_the_one_that_was_meant(word, first):
    assert layout_named(word) is None
    assert nearest_layouts(word)[0] == first


def test_a_word_like_none_gets_none():
    assert nearest_layouts("xylophone") == [] == nearest_layouts("")
    assert layout_named("../compose") is layout_named("compose") is None


def test_each_language_is_in_words():
    assert layout_language("de") == "German"
    assert all(layout_language(name)[0].isupper() for name in layout_names())


READ = """
import sys
from matrixgen.layouts import files, layout_named
assert layout_named("fr", "linux").way("@")
assert files.document_of.cache_info().currsize == 1
assert files.dead_keys.cache_info().currsize == 0, "a sign without a dead key needs no pairs"
assert layout_named("fr", "linux").way("ô") and files.dead_keys.cache_info().currsize == 1
"""


def test_only_the_one_file_is_read_and_that_of_pairs_once_a_dead_key_is_needed():
    subprocess.run([sys.executable, "-c", READ], check=True)


def test_the_keypad_types_its_signs_on_every_system():
    for name in ("fr", "de", "cz"):
        for system in ("linux", "windows", "macos"):
            signs = [of(name, system).signs(usage)[0] for usage in KEYPAD_SIGNS]
            assert signs == list(KEYPAD_SIGNS.values())


CHECK = """
import sys
from pathlib import Path
from matrixgen.cli.main import main
assert main(["check", sys.argv[1]]) == 0
assert not [name for name in sys.modules if name.startswith("matrixgen.layouts")]
"""


def test_a_check_does_not_load_the_room():
    keyboard = FOLDER / "godwit-46" / "godwit-46.keys"
    subprocess.run([sys.executable, "-c", CHECK, str(keyboard)], check=True)
