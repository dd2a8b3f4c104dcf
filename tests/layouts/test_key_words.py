"""The words of keys and presses are read back as just those, and no two are called alike."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import pytest

from matrixgen.layouts import SYSTEMS, HostLayout, KeyStroke, KeyWords, layout_named, layout_names
from matrixgen.source.letters import Letters
from matrixgen.usages import usages, word_of

KEYS = [usage for usage in usages() if usage < 0xE0]
MODIFIERS = (0x00, 0x02, 0x40, 0x42, 0x04, 0x06, 0x01)


def layouts() -> Iterator[HostLayout]:
    for name, system in product(layout_names(), (None, *SYSTEMS)):
        layout = layout_named(name, system)
        if layout and layout.is_known:
            yield layout


@pytest.mark.few(50)
@pytest.mark.parametrize("layout", [*layouts()], ids=lambda one: f"{one.name} on {one.system}")
def test_words_are_read_back_and_no_two_are_alike(layout: HostLayout) -> None:
    words, letters = KeyWords(layout), Letters(layout)
    assert [letters.usage_of(words.key(usage)) for usage in KEYS] == KEYS
    strokes = [KeyStroke(*one) for one in product(KEYS, MODIFIERS)]
    assert len({words.stroke(one) for one in strokes}) == len(strokes)
    signs = {sign: one for one in strokes if (sign := words.sign(one))}
    assert {sign: letters.way_of_cell(sign) for sign in signs} == {
        sign: (one,) for sign, one in signs.items()
    }
    assert len(signs) > 60


@pytest.mark.parametrize(
    ("name", "stroke", "word"),
    [
        ("de", (0x14, 0x40), "@"),
        ("de", (0x2F, 0), "Ü"),
        ("de", (0x2F, 0x02), "Shift+Ü"),
        ("de", (0x2D, 0), "ß"),
        ("de", (0x1C, 0x01), "Ctrl+Z"),
        ("de", (0x30, 0), "+"),
        ("de", (0x30, 0x01), "Ctrl+RightBracket"),
        ("de", (0x2E, 0), "dead ´"),
        ("de", (0x2E, 0x01), "Ctrl+´"),
        ("de", (0x08, 0x40), "€"),
        ("de", (0x28, 0), "Enter"),
        ("de", (0x59, 0), "Keypad1"),
        ("de", (0, 0x02), "Shift"),
        ("fr", (0x1E, 0), "&"),
        ("fr", (0x1E, 0x02), "1"),
        ("ru", (0x04, 0), "Ф"),
        ("ru", (0x38, 0x01), "Ctrl+Slash"),
        ("tr", (0x34, 0), "İ"),
    ],
)
def test_a_press_is_called_as_a_cell_is_written(name: str, stroke: tuple[int, int], word: str):
    layout = layout_named(name)
    assert layout and KeyWords(layout).stroke(KeyStroke(*stroke)) == word


def test_a_capital_without_a_small_letter_stands_for_itself():
    layout = layout_named("de", "linux")
    assert layout and layout.way("ω") is None
    assert Letters(layout).way_of_cell("Ω") == (KeyStroke(0x14, 0x42),)
    assert word_of(0x14) == "Q"
