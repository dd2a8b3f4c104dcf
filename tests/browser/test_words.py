"""Reports in words, and what a US computer types: the script beside Python and published tables.

None of it needs the page; the script is asked as it is.
"""

from __future__ import annotations

import random
from typing import Any

import hidtools.hut
import pytest
from playwright.sync_api import Browser, Page

from matrixgen.behaviour.media_reports import PAGES, MediaReports
from matrixgen.emit.press_data import press_data
from matrixgen.emit.press_section import press_script
from matrixgen.model import Media
from matrixgen.rehearse.movement import Movement
from matrixgen.rehearse.report_words import keyboard_report, media_report
from matrixgen.toolchain.web_engine import NO_COMPILER
from matrixgen.usages import usage_of, usages
from tests.firmware.pads import every_media_key
from tests.reports import any_number

KEYBOARD_PAGE = hidtools.hut.HUT[0x07]
SHIFT, RIGHT_SHIFT, CTRL, RIGHT_ALT = 0x02, 0x20, 0x01, 0x40

TYPED = """([types, reports]) => {
    const text = new pressIt.Text(types);
    reports.forEach((report) => text.take(Uint8Array.from(report)));
    return `${text.before}|${text.after}`;
}"""


@pytest.fixture(scope="module")
def bare(browser: Browser) -> Any:
    """A page with the script and nothing of the section."""
    page = browser.new_page()
    page.add_script_tag(content=press_script())
    yield page
    page.close()


@pytest.fixture(scope="module")
def data() -> dict[str, Any]:
    return press_data(every_media_key(), NO_COMPILER)


def typed(page: Page, data: dict[str, Any], *strokes: tuple[int, str]) -> str:
    """Return what keys type that are pressed one by one, each with modifiers and by its word."""
    reports = []
    for modifiers, word in strokes:
        usage = usage_of(word)
        assert usage, word
        reports += [list(any_number(modifiers, usage)), list(any_number(0))]
    return str(page.evaluate(TYPED, [data["types"], reports]))


def plain(*words: str) -> list[tuple[int, str]]:
    return [(0, word) for word in words]


def test_the_words_of_any_report_are_those_of_a_rehearsal(bare: Page, data: dict[str, Any]) -> None:
    chance = random.Random("words")
    reports = [any_number(0)]
    for count in (1, 1, 2, 3, 6, 9):
        some = chance.sample(usages()[:-8], count)
        reports.append(any_number(chance.randrange(256), *some))
    for report in reports:
        words = bare.evaluate(
            "([data, report]) => pressIt.wordsOf(data, Uint8Array.from(report))",
            [data, list(report)],
        )
        assert words == keyboard_report(report).words


def test_the_words_of_any_media_report_are_those_of_a_rehearsal(
    bare: Page, data: dict[str, Any]
) -> None:
    keyboard = every_media_key()
    keys = {(one.page, one.usage) for one in keyboard.every_action if isinstance(one, Media)}
    reports = MediaReports(keys)
    for kind in PAGES:
        for down in (set(), {min(keys)}, {max(keys)}, set(sorted(keys)[::7])):
            report = reports.report(kind, down)
            words = bare.evaluate(
                "([data, report]) => pressIt.mediaWordsOf(data, Uint8Array.from(report))",
                [data, list(report)],
            )
            assert words == media_report(report, reports).words


ADD_UP = """([reports, ends]) => {
    const told = [];
    const movement = new pressIt.Movement((ms, words) => told.push([ms, words]));
    for (let ms = 0; ms < ends; ms++) {
        movement.pass(ms);
        if (reports[ms]) {
            movement.take(Uint8Array.from(reports[ms]), ms);
        }
    }
    return told;
}"""


@pytest.mark.parametrize("seed", range(10))
def test_what_a_pointer_s_reports_add_up_to_is_told_as_in_a_rehearsal(
    bare: Page, seed: int
) -> None:
    chance, ends = random.Random(f"pointer {seed}"), 1500
    reports: dict[int, list[int]] = {}
    for _ in range(chance.choice((3, 60, 600))):
        steps = [chance.choice((0, 0, 1, 3, 127, 129, 255)) for _ in range(4)]
        reports[chance.randrange(ends)] = [4, chance.choice((0, 0, 0, 1, 3, 16)), *steps]
    movement, expected = Movement(), []
    for ms in range(ends):
        told = movement.pass_time(ms)
        expected += [[ms, told.words]] if told else []
        if ms in reports:
            told = movement.take(bytes(reports[ms]), ms)
            expected += [[ms, told.words]] if told else []
    assert bare.evaluate(ADD_UP, [{str(ms): one for ms, one in reports.items()}, ends]) == expected
    assert expected


def both_signs(usage: int) -> tuple[str, str] | None:
    """Return what a key types without and with Shift by its name in the usage table, if it says."""
    name = KEYBOARD_PAGE[usage].name
    named = {
        0x2D: "- and _",  # "(underscore)"
        0x34: "' and \"",
        0x35: "` and ~",  # "Grave Accent and Tilde"
        0x36: ", and <",  # "Keyboard, and <"
    }
    plain, _, shifted = named.get(usage, name).partition(" and ")
    return (plain, shifted) if len(plain) == len(shifted) == 1 else None


def test_a_key_types_both_signs_of_its_name_in_the_usage_table(
    bare: Page, data: dict[str, Any]
) -> None:
    strokes, signs = [], ""
    for usage in range(0x04, 0x39):
        if both := both_signs(usage):
            word = data["words"][str(usage)]
            strokes += [(0, word), (SHIFT, word), (RIGHT_SHIFT, word)]
            signs += both[0] + both[1] + both[1]
    assert typed(bare, data, *strokes) == f"{signs}|"
    assert len(signs) == 3 * (26 + 10 + 11)


def test_caps_lock_is_shift_for_the_letters_alone(bare: Page, data: dict[str, Any]) -> None:
    strokes = [(0, "CapsLock"), (0, "A"), (SHIFT, "A"), (0, "1"), (SHIFT, "1"), (0, "CapsLock")]
    assert typed(bare, data, *strokes, (0, "A")) == "Aa1!a|"


def test_the_keypad_types_numbers_with_num_lock_and_moves_without(
    bare: Page, data: dict[str, Any]
) -> None:
    keypad = plain("Keypad1", "Keypad2", "Keypad5", "KeypadPeriod", "KeypadPlus", "KeypadEnter")
    assert typed(bare, data, *keypad) == "125.+\n|"
    moves = plain("A", "B", "NumLock", "Keypad7", "Keypad5", "KeypadPeriod", "KeypadMinus")
    assert typed(bare, data, *moves) == "-|b"
    assert typed(bare, data, *plain("A", "B"), (SHIFT, "Keypad4")) == "a|b"


def test_without_num_lock_the_keypad_is_what_its_names_in_the_usage_table_say(
    data: dict[str, Any],
) -> None:
    words = {"PageDn": "PageDown", "Down Arrow": "DownArrow", "Left Arrow": "LeftArrow"}
    words |= {"Right Arrow": "RightArrow", "Up Arrow": "UpArrow"}
    found = {}
    for usage in data["types"]["numbers"]:
        _, _, other = KEYBOARD_PAGE[usage].name.partition(" and ")
        if other:
            found[usage] = usage_of(words.get(other, other))
    assert found == data["types"]["numbers_else"]


def test_a_shortcut_types_nothing_and_alt_gr_is_plain_right_alt(
    bare: Page, data: dict[str, Any]
) -> None:
    strokes = [(CTRL, "C"), (RIGHT_ALT, "E"), (CTRL | SHIFT, "A"), (CTRL, "Backspace"), (0, "B")]
    assert typed(bare, data, *strokes) == "b|"


def test_shift_and_a_sign_in_one_report_make_the_shifted_sign_and_a_held_key_types_once(
    bare: Page, data: dict[str, Any]
) -> None:
    reports = [any_number(SHIFT, 0x04), any_number(SHIFT, 0x04, 0x05), any_number(0, 0x05)]
    assert bare.evaluate(TYPED, [data["types"], [list(one) for one in reports]]) == "AB|"


EDITS = {
    "backspace": (["Backspace"], "ab\nc|"),
    "backspace at the start": (["Home", "UpArrow", "Home", "Backspace"], "|ab\ncd"),
    "delete": (["Left", "Delete"], "ab\nc|"),
    "delete at the end": (["Delete"], "ab\ncd|"),
    "left over a line's start": (["Left", "Left", "Left"], "ab|\ncd"),
    "right at the end": (["Right"], "ab\ncd|"),
    "home and end": (["Home", "X", "End", "Y"], "ab\nxcdy|"),
    "up keeps the column": (["Left", "Up"], "a|b\ncd"),
    "up at the top": (["Up", "Up", "Left"], "a|b\ncd"),
    "down to a shorter line": (["Home", "X", "End", "Up", "Down"], "ab\nxc|d"),
    "down at the bottom": (["Down", "Home", "Down"], "ab\n|cd"),
    "end of an upper line": (["Up", "Home", "End"], "ab|\ncd"),
    "enter in the middle": (["Left", "Enter"], "ab\nc\n|d"),
}


@pytest.mark.parametrize("case", EDITS)
def test_a_text_is_edited_as_in_a_text_field(case: str, bare: Page, data: dict[str, Any]) -> None:
    words, found = EDITS[case]
    written = plain("A", "B", "Enter", "C", "D")
    assert typed(bare, data, *written, *plain(*words)) == found


def test_tab_types_a_tab_and_with_shift_nothing(bare: Page, data: dict[str, Any]) -> None:
    assert typed(bare, data, (0, "Tab"), (SHIFT, "Tab"), (SHIFT, "Enter")) == "\t\n|"
