"""The computer's own keys: their codes against what browsers and playwright know of them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Error, Page

from matrixgen.usages import usage_of
from matrixgen.usages.browser_codes import CODES
from matrixgen.usages.us_layout import KEYPAD_SIGNS, NUMBERS, SIGNS
from tests.browser.browsers import only_chromium

LAYOUT = "navigator.keyboard.getLayoutMap().then((map) => [...map.entries()])"

NOT_US = {"IntlYen", "IntlBackslash"}
"""Chromium makes signs up for keys that a US layout has none for."""

OUR_WORDS = {"Meta": "GUI", "ContextMenu": "Application", "AltGraph": "AltGr"}
"""What a key's value is called here, where neither has the other's word."""


@pytest.fixture(scope="module")
def bare(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """A page of a file, which may ask for the layout, with a note of each key that goes down."""
    file: Path = tmp_path_factory.mktemp("codes") / "page.html"
    file.write_text(
        "<!doctype html><script>let last; addEventListener('keydown', (event) => {"
        " last = [event.code, event.key]; event.preventDefault(); });</script>"
    )
    page = browser.new_page()
    page.goto(file.as_uri())
    yield page
    page.close()


def test_chromium_says_the_same_sign_of_every_code_of_its_layout(bare: Page) -> None:
    only_chromium(bare, "has `navigator.keyboard`")
    layout = dict(bare.evaluate(LAYOUT))
    ours = {code: SIGNS[usage][0] for code, usage in CODES.items() if usage in SIGNS}
    assert {code: sign for code, sign in layout.items() if code not in NOT_US} == {
        code: sign for code, sign in ours.items() if code != "Space"
    }


def test_the_browser_types_each_sign_with_the_key_of_our_code(bare: Page) -> None:
    """Firefox finds the code of a sign by itself, in Chromium it is playwright's."""
    for signs in SIGNS.values():
        for sign in signs:
            bare.keyboard.press(sign)
            code, value = bare.evaluate("last")
            assert (SIGNS[CODES[code]], value) == (signs, sign)


def test_playwright_knows_the_codes_and_what_keys_they_are(bare: Page) -> None:
    only_chromium(bare, "is sent codes: a key of WebDriver is the sign on it")
    said = dict(values_known_to_playwright(bare))
    assert len(said) > 95
    for code, value in said.items():
        usage = CODES[code]
        sign = SIGNS.get(usage, (KEYPAD_SIGNS.get(usage),))[0]
        if sign:
            assert value == sign, code
        elif usage not in NUMBERS:  # whose values are those without Num Lock
            word = OUR_WORDS.get(value, value.removeprefix("Arrow"))
            assert usage_of(word) in same_by_value(usage), code


def values_known_to_playwright(page: Page) -> Iterator[tuple[str, str]]:
    """Yield codes of ours that it has a key for, and the values of their keys."""
    for code in CODES:
        try:
            page.keyboard.down(code)
            page.keyboard.up(code)
        except Error as error:
            assert "Unknown key" in str(error)
            continue
        found, value = page.evaluate("last")
        assert found == code
        yield code, value


def same_by_value(usage: int) -> set[int | None]:
    """Return the usages that a key's value may mean: left and right are one, and both Enters."""
    left = {usage - 4} if usage >= 0xE4 else set()
    return {usage, *left, *({usage_of("Enter")} if usage == usage_of("KeypadEnter") else ())}
