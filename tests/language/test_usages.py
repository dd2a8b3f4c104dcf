"""The words for usages against two tables that we did not write.

`hidtools.hut` is the usage table of hid-tools. `data/hid_to_evdev.csv` joins its names with the key
codes of the Linux kernel 6.1 (`drivers/hid/hid-input.c`, `hid_keyboard[]`, and
`include/uapi/linux/input-event-codes.h`).
"""

import re
from pathlib import Path

import hidtools.hut
import pytest

from matrixgen import usages
from matrixgen.similar import similar_name
from tests.documents import rows_of

TABLE = Path(__file__).parent / "data" / "hid_to_evdev.csv"
KEYBOARD_PAGE = hidtools.hut.HUT[0x07]
NAMED_THERE = sorted(n for n in range(0x04, 0xE8) if n in KEYBOARD_PAGE)

# Ours are keycap words or the newer edition's; hid-tools has the wording of an old edition.
REWORDED = {
    "Escape": "ESCAPE",
    "Enter": "Return (ENTER)",
    "Backspace": "DELETE (Backspace)",
    "Space": "Spacebar",
    "Minus": "- and (underscore)",
    "Equal": "= and +",
    "LeftBracket": "[ and {",
    "RightBracket": "] and }",
    "Backslash": "\\ and |",
    "NonUSHash": "Non-US # and ~",
    "Semicolon": "; and :",
    "Apostrophe": "' and \"",
    "Grave": "Grave Accent and Tilde",
    "Comma": "Keyboard, and <",
    "Period": ". and >",
    "Slash": "/ and ?",
    "Delete": "Delete Forward",
    "NumLock": "Keypad Num Lock and Clear",
    "KeypadSlash": "Keypad /",
    "KeypadAsterisk": "Keypad *",
    "KeypadMinus": "Keypad -",
    "KeypadPlus": "Keypad +",
    "KeypadPeriod": "Keypad . and Delete",
    "NonUSBackslash": "Non-US \\ and |",
    "KeypadEqual": "Keypad =",
    "KeyboardMenu": "Menu",
    **{f"Keyboard{word}": word for word in ("Power", "Mute")},
    **{f"KeyboardVolume{way}": f"Volume {way}" for way in ("Up", "Down")},
    "KeyboardReturn": "Return",
    "SysReq": "SysReq/Attention",
    "ClearAgain": "Clear/Again",
    "CrSel": "CrSel/Props",
    **{f"International{n}": f"Kanji{n}" for n in range(1, 10)},
}

# Kernel key names that say the same in other words.
KERNEL_WORDS = {
    "KEY_ESC": "Escape",
    "KEY_LEFTBRACE": "LeftBracket",
    "KEY_RIGHTBRACE": "RightBracket",
    "KEY_DOT": "Period",
    "KEY_KPDOT": "KeypadPeriod",
    "KEY_SYSRQ": "PrintScreen",
    "KEY_UP": "UpArrow",
    "KEY_DOWN": "DownArrow",
    "KEY_LEFT": "LeftArrow",
    "KEY_RIGHT": "RightArrow",
    "KEY_LEFTCTRL": "LeftControl",
    "KEY_RIGHTCTRL": "RightControl",
    "KEY_LEFTMETA": "LeftGUI",
    "KEY_RIGHTMETA": "RightGUI",
    "KEY_KPLEFTPAREN": "KeypadLeftParenthesis",
    "KEY_KPRIGHTPAREN": "KeypadRightParenthesis",
    "KEY_PROPS": "KeyboardMenu",
    "KEY_POWER": "KeyboardPower",
    "KEY_MUTE": "KeyboardMute",
    "KEY_VOLUMEUP": "KeyboardVolumeUp",
    "KEY_VOLUMEDOWN": "KeyboardVolumeDown",
    "KEY_102ND": "NonUSBackslash",
    "KEY_COMPOSE": "Application",
}


def plain(name):
    """`Keypad 1 and End` as one word, without the second function of the key."""
    return re.sub(r"[^A-Za-z0-9]", "", name.split(" and ")[0]).casefold()


def kernel_rows():
    return [row for row in rows_of(TABLE) if row["usage_page"] == "0x07"]


@pytest.mark.parametrize("number", NAMED_THERE, ids=hex)
def test_a_usage_has_the_name_of_the_usage_table(number):
    theirs, ours = KEYBOARD_PAGE[number].name, usages.name_of(number)
    if ours in REWORDED:
        assert REWORDED[ours] == theirs
    else:
        assert plain(ours) == plain(theirs)


def test_every_usage_of_the_table_but_the_error_codes_has_a_word_and_so_has_the_newer_range():
    assert set(usages.usages()) == set(NAMED_THERE) | set(range(0xB0, 0xDE))


def test_a_sign_that_stands_first_in_the_tables_name_is_a_word_for_it():
    signs = {
        KEYBOARD_PAGE[n].name[0]: n for n in NAMED_THERE if KEYBOARD_PAGE[n].name[1:5] == " and"
    }
    reserved = {"=", "#", "~", ",", ":", "+"}
    for sign, number in signs.items():
        assert usages.usage_of(sign) == (None if sign in reserved else number)


def test_the_kernel_gives_each_word_the_key_that_the_word_says():
    said = 0
    for row in kernel_rows():
        number, code = int(row["usage_dec"]), row["evdev_name"]
        word = KERNEL_WORDS.get(code) or re.sub(
            "^KEY_(KP)?", lambda m: "Keypad" if m[1] else "", code
        )
        usage = usages.usage_of(word)
        if usage is None or number not in usages.usages():
            continue
        same_key = {int(r["usage_dec"]) for r in kernel_rows() if r["evdev_name"] == code}
        assert usage in same_key, (word, hex(number))
        said += 1
    assert said >= 130


KEYPAD_KEYSYMS = {
    **{f"KP_{digit}": f"Keypad{digit}" for digit in range(10)},
    "KP_Enter": "KeypadEnter",
    "KP_Equal": "KeypadEqual",
    "KP_Multiply": "KeypadAsterisk",
    "KP_Add": "KeypadPlus",
    "KP_Separator": "KeypadComma",
    "KP_Subtract": "KeypadMinus",
    "KP_Decimal": "KeypadPeriod",
    "KP_Divide": "KeypadSlash",
}
"""The signs of X11's keypad (xorgproto, `X11/keysymdef.h`: "separator, often comma")."""


def test_the_keypad_s_keys_have_the_names_of_x11_and_of_the_kernel():
    for keysym, word in KEYPAD_KEYSYMS.items():
        assert usages.usage_of(keysym.replace("_", "")) == usages.usage_of(word)
    named = [row for row in kernel_rows() if row["evdev_name"].startswith("KEY_KP")]
    for row in named:
        if int(row["usage_dec"]) in range(0x54, 0x68) or row["evdev_name"] == "KEY_KPCOMMA":
            word = row["evdev_name"].removeprefix("KEY_")
            assert usages.usage_of(word) == int(row["usage_dec"]), word
    assert len(named) >= 18


def test_hosts_ignore_what_the_kernel_has_no_key_for():
    unknown = {int(r["usage_dec"]) for r in kernel_rows() if r["evdev_name"] == "KEY_UNKNOWN"}
    named = set(usages.usages())
    assert unknown & named <= {number for number in named if usages.hosts_ignore(number)}
    heeded_by_few = {
        usages.usage_of(word)
        for word in ("KeyboardPower", "KeyboardMute", "KeyboardVolumeUp", "KeyboardVolumeDown")
    }
    assert {number for number in named - unknown if usages.hosts_ignore(number)} == heeded_by_few


def test_no_word_stands_for_two_usages_in_any_case():
    words = [word.casefold() for number in usages.usages() for word in usages.words_of(number)]
    assert len(words) == len(set(words))


def test_capitals_do_not_matter_and_output_has_one_spelling():
    for number in usages.usages():
        for word in usages.words_of(number):
            assert usages.usage_of(word.upper()) == usages.usage_of(word.lower()) == number
        assert usages.name_of(number) == usages.words_of(number)[0]


@pytest.mark.parametrize(
    ("keycap", "number"),
    [
        *[("Esc", 0x29), ("Ctrl", 0xE0), ("AltGr", 0xE6), ("PgUp", 0x4B), ("Del", 0x4C)],
        *[("Up", 0x52), ("Return", 0x28), ("GUI", 0xE3), ("Shift", 0xE1), ("Menu", 0x65)],
    ],
)
def test_a_word_on_a_keycap_names_its_usage(keycap, number):
    assert usages.usage_of(keycap) == number


def test_modifiers_have_the_bits_of_the_boot_report():
    bits = [usages.modifier_bit(0xE0 + bit) for bit in range(8)]
    assert bits == [1, 2, 4, 8, 16, 32, 64, 128]
    assert usages.modifier_bit(0x04) == 0 == usages.modifier_bit(0xE8)


@pytest.mark.parametrize(
    ("word", "near"),
    [
        *[("entr", "Enter"), ("Bakspace", "Backspace"), ("retrun", "Return")],
        ("LeftShft", "LeftShift"),
        *[("qqqqqqqq", None), ("Entf", None), ("Strg", None), ("F25", None), ("Keypad77", None)],
    ],
)
def test_a_near_word_is_found_whatever_its_case_and_rather_none_than_a_wrong_one(word, near):
    assert similar_name(word, usages.words()) == near
