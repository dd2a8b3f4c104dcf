"""The page's text where a file names the computer's layout: texts, any keys, the computer's own."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from matrixgen.computer.typing_computer import TypingComputer
from matrixgen.emit.press_data import press_data
from matrixgen.emit.press_section import press_script
from matrixgen.emit.typing_data import typing_data
from matrixgen.jobs.examine import examine_text
from matrixgen.jobs.press import press_data_of
from matrixgen.layouts import SYSTEMS, KeyStroke, layout_names
from matrixgen.model import Keyboard, Press
from matrixgen.model.actions import Action
from matrixgen.rehearse.report_words import keyboard_report
from matrixgen.toolchain.web_engine import NO_COMPILER
from matrixgen.usages.us_layout import EDITS, KEYPAD_SIGNS, NUMBERS
from tests.amounts import amount, some
from tests.browser.pages import Live
from tests.computer.pads import HELD, WRITING, on_computer, text_pad, there
from tests.computer.pangrams import PANGRAMS
from tests.firmware.build_model import keyboard
from tests.reports import any_number

REPORTS = amount("MATRIXGEN_PAGE_REPORTS", suite=150, long=2000)

TYPED = """([types, reports]) => {
    const text = new pressIt.Text(types);
    reports.forEach((report) => text.take(Uint8Array.from(report)));
    return [text.before, text.after, text.leds];
}"""


@pytest.fixture(scope="module")
def bare(browser: Browser) -> Iterator[Page]:
    """A page with the script and nothing of the section."""
    page = browser.new_page()
    page.add_script_tag(content=press_script())
    yield page
    page.close()


@pytest.mark.few(5)
@pytest.mark.parametrize("name", PANGRAMS)
def test_a_key_types_a_text_in_the_page_whether_caps_lock_is_on_or_not(
    name: str, live: Callable[[dict[str, Any]], Live]
) -> None:
    text = PANGRAMS[name]
    opened = live(press_data_of(text_pad(text, name), "pad.keys"))
    for keys in (["say"], ["caps", "say"]):
        for key in keys:
            opened.tap(key)
        opened.pass_ms(20 * len(text))
    assert opened.text == f"{text}{text}|"
    assert opened.part("locks").startswith("Caps Lock on")


EVERY = (*WRITING, *EDITS, *KEYPAD_SIGNS, *NUMBERS, 0x28, 0x2B, 0x39, 0x53)


def every_key(name: str, system: Any) -> Keyboard:
    cells: dict[str, Action] = {f"k{usage}": Press(usage) for usage in EVERY}
    cells |= {held: Press(0, bit) for held, bit in HELD.items()} | {"alt": Press(0, 0x05)}
    return on_computer(keyboard([[*cells]], {"base": cells}), name, system)


def reports_at_random(chance: random.Random) -> Iterator[tuple[int, int]]:
    """Yield modifiers and a usage; locks and keys that edit are rarer than signs."""
    for _ in range(REPORTS):
        usage = chance.choice(WRITING if chance.random() < 0.85 else EVERY)
        yield chance.choice((0, 0, 0, 0x02, 0x20, 0x40, 0x42, 0x04, 0x05, 0x01, 0x44)), usage


@pytest.mark.few(8)
@pytest.mark.parametrize("name", some(layout_names(), 15))
def test_any_keys_write_in_the_page_what_they_write_in_a_rehearsal(name: str, bare: Page) -> None:
    chance = random.Random(name)
    for system in (None, *SYSTEMS):
        layout, computer = there(name, system), TypingComputer(there(name, system))
        if not layout.is_known:
            continue
        sent = []
        for modifiers, usage in reports_at_random(chance):
            computer.take(modifiers, [usage])
            computer.take(0, [])
            sent += [list(any_number(modifiers, usage)), list(any_number(0))]
        types = typing_data(every_key(name, system))
        found = bare.evaluate(TYPED, [types, sent])
        assert found == [computer.field.before, computer.field.after, computer.leds], system


GERMAN = """\
keyboard "Pad"
  computer de on windows

plate
  line Q Z Y Semicolon

wiring
  row    r0  Q Z Y Semicolon
  column c0  Q
  column c1  Z
  column c2  Y
  column c3  Semicolon
"""


def german() -> Keyboard:
    design = examine_text("pad.keys", GERMAN, Path()).design
    assert design
    return design.keyboard


def test_the_computer_s_own_keys_press_those_at_their_places() -> None:
    assert press_data(german(), NO_COMPILER)["computer"] == {
        "KeyQ": "Q",
        "KeyY": "Z",
        "KeyZ": "Y",
        "Semicolon": "Semicolon",
    }


def test_the_page_says_which_computer_the_text_is_of(
    live: Callable[[dict[str, Any]], Live],
) -> None:
    opened = live(press_data_of(german(), "pad.keys"))
    heading = opened.page.locator("#press-text").text_content()
    assert heading == "What a computer set to German (de) on Windows would type"
    opened.tap("Z")
    opened.tap("Semicolon")
    assert opened.text == "zö|"
    assert opened.reports[0] == "keyboard: Z down"


def test_the_words_of_a_report_are_those_of_a_rehearsal(bare: Page) -> None:
    data = press_data(german(), NO_COMPILER)
    report = any_number(0x40, 0x1C, 0x33, 0x59)
    words = bare.evaluate(
        "([data, report]) => pressIt.wordsOf(data, Uint8Array.from(report))", [data, list(report)]
    )
    assert words == "AltGr+Z+Ö+Keypad1 down"
    assert keyboard_report(report).words == "AltGr+Y+Semicolon+Keypad1 down"


def test_only_what_the_keyboard_sends_is_told_and_that_is_short() -> None:
    types = typing_data(german())
    assert set(types["signs"]) == {0x14, 0x1C, 0x1D, 0x33}
    assert all(len(marks) == 2 for marks in types["signs"].values())
    assert (types["locked"], types["thirds"], types["dead"]) == ({}, [], {})
    whole = typing_data(text_pad("ü@", "de"))
    assert whole["thirds"] == [0x40] and set(whole["signs"]) == {0x2F, 0x14}
    assert KeyStroke(0x2F) != KeyStroke(0x14)
