"""The computer is another, or what keys type: what is told is what an image makes of it.

The law: cosmetic is the same image, reflash is another one. Images are measured by the C that is
built of both files.
"""

from __future__ import annotations

import pytest

from tests.compare.truth import assert_is_told_as, compare_texts, lines_of, most_work
from tests.texts import Pair, edited

PAD = """\
keyboard "Pad"
  controller atmega32u4
  computer   de

plate
  line Q W E R T Z

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD1  Q to Z
  column c0 on PB0  Q
  column c1 on PB1  W
  column c2 on PB2  E
  column c3 on PB3  R
  column c4 on PB4  T
  column c5 on PB5  Z

actions
  greet = type "Tag: ja", then wait 100 ms, then Enter
  idle  = type "Zu"

layer base
  Q = hold layer nav
  Z = Tab

layer nav
  W = greet
  E = @
  R = Ctrl+Z
  T = type "abc"
"""

ALIKE = [("  E = @\n", ""), ("R = Ctrl+Z", "R = Ctrl+K"), ('"Tag: ja"', '"Tag ja"')]
"""What German and US computers do not type alike, gone."""

NO_TEXTS = [
    *ALIKE,
    ('greet = type "Tag ja", then', "greet = A, then"),
    ('  idle  = type "Zu"\n', ""),
    ('T = type "abc"', "T = F1"),
]

COMPUTER = "the computer changed from"

EDITS: dict[str, tuple[str, list[Pair], list[Pair], list[str]]] = {
    "another computer": (
        "reflash",
        [],
        [("computer   de", "computer   us")],
        [
            'action `greet` sends other keys for `type "Tag: ja", then wait 100 ms, then Enter`, '
            "at 1 key",
            "layer `nav`: `E`, written `@`, now sends `Shift+2` instead of `AltGr+Q`",
            "layer `nav`: `R`, written `Ctrl+Z`, now sends `Ctrl+Z` instead of `Ctrl+Y`",
            f"{COMPUTER} `de` to `us`, so `W`, `E` and `R` send other keys",
            'action `idle` sends other keys for `type "Zu"`, and no key uses it',
        ],
    ),
    "another computer that types alike": (
        "cosmetic",
        [],
        [("computer   de", "computer   at")],
        [f"{COMPUTER} `de` to `at`: the same image"],
    ),
    "another computer, of which no key takes notice": (
        "cosmetic",
        ALIKE,
        [("computer   de", "computer   us")],
        [
            'action `idle` sends other keys for `type "Zu"`, and no key uses it',
            f"{COMPUTER} `de` to `us`: the same image",
        ],
    ),
    "another computer, of a letter on the plate": (
        "reflash",
        [*ALIKE, ("  Z = Tab\n", ""), ('  idle  = type "Zu"\n', "")],
        [("computer   de", "computer   us")],
        [
            "layer `base`: `Z` now sends `Z` instead of `Y`",
            f"{COMPUTER} `de` to `us`, so `Z` sends other keys",
        ],
    ),
    "no computer any more": (
        "cosmetic",
        NO_TEXTS,
        [("  computer   de\n", "")],
        [f"{COMPUTER} `de` to the default: the same image"],
    ),
    "no computer any more, of a letter on the plate": (
        "reflash",
        [*NO_TEXTS, ("  Z = Tab\n", "")],
        [("  computer   de\n", "")],
        [
            "layer `base`: `Z` now sends `Z` instead of `Y`",
            f"{COMPUTER} `de` to the default, so `Z` sends other keys",
        ],
    ),
    "a system that types alike": (
        "cosmetic",
        [],
        [("computer   de", "computer   de on windows")],
        [f"{COMPUTER} `de` to `de on windows`: the same image"],
    ),
    "a system that types otherwise": (
        "reflash",
        [],
        [("computer   de", "computer   de on macos")],
        [
            "layer `nav`: `E`, written `@`, now sends `Alt+L` instead of `AltGr+Q`",
            f"{COMPUTER} `de` to `de on macos`, so `E` sends other keys",
        ],
    ),
    "another computer, and cells for it": (
        "cosmetic",
        [*ALIKE, ('  idle  = type "Zu"\n', ""), ("R = Ctrl+K", "R = Ctrl+Z")],
        [("computer   de", "computer   us"), ("R = Ctrl+Z", "R = Ctrl+Y")],
        [f"{COMPUTER} `de` to `us`: the same image"],
    ),
    "a text": (
        "reflash",
        [],
        [('"abc"', '"a,b  # c"')],
        ['layer `nav`: `T` changed from `type "abc"` to `type "a,b  # c"`'],
    ),
    "a text of a name": (
        "reflash",
        [],
        [('"Tag: ja"', '"Tag"')],
        [
            'action `greet` changed from `type "Tag: ja", then wait 100 ms, then Enter` '
            'to `type "Tag", then wait 100 ms, then Enter`, at 1 key'
        ],
    ),
    "an accent put together": (
        "cosmetic",
        [('"abc"', '"abu\u0308"')],
        [('"abu\u0308"', '"ab\u00fc"')],
        ["same meaning, written differently: spacing, or other words for it"],
    ),
    "the pace": ("reflash", [], [("\nplate", "  pace 8 ms\n\nplate")], ["the pace changed from "]),
    "the default pace": (
        "cosmetic",
        [],
        [("\nplate", "  pace 4 ms\n\nplate")],
        ["the pace changed from the default to 4 ms: the same image"],
    ),
    "a wait": (
        "reflash",
        [],
        [("wait 100", "wait 110")],
        ['action `greet` changed from `type "Tag: ja", then wait 100 ms, then Enter` to '],
    ),
    "a name": ("cosmetic", [], [("greet", "hello")] * 2, ["action `greet` is now called `hello`"]),
}


def both_of(name: str) -> tuple[str, str]:
    _, before, replaced, _ = EDITS[name]
    text = edited(PAD, before, 1)
    return text, edited(text, replaced, 1)


@pytest.mark.parametrize("name", EDITS)
@pytest.mark.parametrize("way", [1, -1], ids=("there", "back"))
def test_an_edit_is_told_as_what_it_does_to_the_image(name, way):
    work = EDITS[name][0]
    assert_is_told_as(*both_of(name)[::way], work, is_other=work == "reflash")


@pytest.mark.parametrize("name", EDITS)
def test_an_edit_is_told_in_these_words(name):
    told = [one.text for one in compare_texts(*both_of(name)).changes]
    for text, expected in zip(told, EDITS[name][3], strict=True):
        assert text.startswith(expected)


@pytest.mark.parametrize("name", EDITS)
def test_facts_say_the_same_work(name):
    assert most_work(*both_of(name)) == EDITS[name][0]


def test_a_long_text_is_told_apart_by_a_checksum():
    text = PAD.replace('"abc"', '"the quick brown fox jumps over the lazy dog: zu"')
    sides = [lines_of(one) for one in (text, text.replace("   de", "   us"))]
    lines = [next(one for one in side if "key T: type" in one) for side in sides]
    assert all("by 47 keys, checksum" in line for line in lines)
    assert lines[0] != lines[1]
