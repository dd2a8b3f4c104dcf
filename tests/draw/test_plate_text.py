"""Plates in letters: every key once, in its place, in 80 columns."""

from __future__ import annotations

import pytest

from matrixgen.draw import plate_rows, plate_text, widest_unit
from matrixgen.draw.plate_text import fits
from tests.examples.shipped import NAMES, example
from tests.texts import keyboard_in


def keys_of(plate: str):
    return keyboard_in(f"plate\n{plate}").keys


@pytest.mark.parametrize("name", NAMES)
def test_every_key_of_an_example_is_there_once_and_no_line_is_too_long(name):
    keys = example(name).keyboard.keys
    lines = plate_text(keys, {})
    assert sum(line.count(".") for line in lines) == len(keys)
    assert max(map(len, lines)) <= 80
    assert fits(keys, {})


def test_words_stand_where_their_keys_are():
    keys = keys_of("  line A B C\n  line in 0.5 D E\n")
    assert plate_text(keys, {"B": "[B]", "D": "[D]"}) == [" .  [B]  .", "  [D]  ."]


def test_words_that_do_not_fit_are_moved_apart_and_said_not_to_fit():
    keys = keys_of(f"  line {' '.join('ABCDEFGHIJKLMNOPQRST')}\n")
    words = {key.name.text: f"[{key.name}-longer]" for key in keys}
    (line,) = plate_text(keys, words)
    assert line.split() == list(words.values())
    assert not fits(keys, words)


def test_rows_that_are_closer_than_half_a_unit_are_one_line():
    keys = keys_of(
        "  line A ~1 B\n  cluster up at 1, 0.4\n    line C\n  cluster low at 0, 1\n    line D\n"
    )
    assert plate_text(keys, {"C": "x"}) == [".   x   .", "."] or plate_text(keys, {"C": "x"}) == [
        ". x .",
        ".",
    ]


def test_no_keys_are_no_lines():
    assert plate_text((), {}) == []


def test_rows_have_a_line_for_each_kind_of_word_below_each_other():
    keys = keys_of("  line A B\n  line C:2\n")
    names = {"A": "A", "B": "B", "C": "C"}
    rows = plate_rows(keys, (names, {"A": "low", "C": "space"}), 6)
    assert rows == [["  A     B", " low"], ["     C", "   space"]]
    assert plate_rows((), (names,), 6) == []


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("width", [40, 79, 200])
def test_rows_of_words_of_the_widest_unit_are_as_wide_as_there_is_room(name, width):
    keys = example(name).keyboard.keys
    unit = widest_unit(keys, width)
    words = {key.name.text: "x" * (int(unit) - 1) for key in keys}
    longest = max(len(line) for row in plate_rows(keys, (words,), unit) for line in row)
    assert longest <= max(width, 60)
