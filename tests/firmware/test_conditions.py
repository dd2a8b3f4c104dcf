"""What is under a condition is there where the keyboard has it, and leaves no trace elsewhere."""

from __future__ import annotations

import re

import pytest

from matrixgen.emit.conditions import FEATURES, decided, decided_tree
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.resources import resource
from tests.firmware import pads
from tests.firmware.host_build import host_view
from tests.firmware.lights import lights_pad
from tests.firmware.test_bench import host_bench

ASKED = re.compile(r"\bHAS_(?!H\b)\w+")
BOARDS = (
    *(pads.small_pad, pads.timed_pad, pads.single_pad, pads.media_pad, pads.kept_pad),
    *(pads.turn_pad, pads.modifier_pad, pads.press_pad),
    *(pads.knob_pad, pads.together_pad),
    lights_pad,
    *(pads.pointer_pad, pads.lone_pointer),
    *(pads.every_media_key, pads.loader_pad, pads.square_board, pads.huge_board),
)


def test_of_two_branches_the_one_that_holds_is_kept_without_its_condition() -> None:
    text = "a\n#if HAS_A\nb\n#else\nc\n#endif\nd\n"
    assert decided(text, {"HAS_A": 1}) == "a\nb\nd\n"
    assert decided(text, {}) == "a\nc\nd\n"


@pytest.mark.parametrize(
    ("condition", "holds"),
    [
        ("HAS_A", True),
        ("!HAS_A", False),
        ("HAS_A && HAS_B", False),
        ("HAS_B || HAS_A && HAS_C", True),
        ("CLOCK == 16", True),
        ("CLOCK == 8", False),
    ],
)
def test_a_condition_holds_as_it_does_for_a_preprocessor(condition: str, holds: bool) -> None:
    values = {"HAS_A": 1, "HAS_C": 2, "CLOCK": 16}
    assert decided(f"#if {condition}\nx\n#endif\n", values) == ("x\n" if holds else "")


def test_of_several_branches_the_first_that_holds_is_kept() -> None:
    text = "#if HAS_A\na\n#elif HAS_B\nb\n#elif HAS_C\nc\n#else\nd\n#endif\n"
    assert decided(text, {"HAS_B": 1, "HAS_C": 1}) == "b\n"
    assert decided(text, {}) == "d\n"


def test_conditions_within_others_are_decided_by_both() -> None:
    text = "#if HAS_A\n#if HAS_B\nb\n#else\nc\n#endif\n#endif\n"
    assert decided(text, {"HAS_B": 1}) == ""
    assert decided(text, {"HAS_A": 1}) == "c\n"


def test_conditions_of_a_compiler_and_guards_stay() -> None:
    text = "#ifndef A_H\n#define A_H\n#ifdef __clang__\na\n#else\nb\n#endif\n#endif\n"
    assert decided(text, {"HAS_A": 1}) == text


def test_what_is_defined_is_asked_for_by_ifdef_whatever_its_value() -> None:
    text = "#ifdef CHIP_A\na\n#endif\n#ifndef CHIP_A\nb\n#endif\n"
    assert decided(text, {"CHIP_A": 0}) == "a\n"
    assert decided(text, {}) == "b\n"


def test_a_condition_that_is_not_understood_is_refused() -> None:
    with pytest.raises(ValueError, match="not understood"):
        decided("#if HAS_A > 2\n#endif\n", {})


def test_a_file_of_which_nothing_is_left_is_gone_and_so_is_its_inclusion() -> None:
    tree = {
        "engine/a.h": b"#ifndef A_H\n#define A_H\n\n#if HAS_A\nint a;\n#endif\n\n#endif\n",
        "engine/b/a.h": b"#ifndef BA_H\n#define BA_H\n\nint ba;\n\n#endif\n",
        "engine/c.c": b'#include "a.h"\n#include "b/a.h"\n#include "has.h"\nint c;\n',
        "Makefile": b"#if HAS_A\n",
        FEATURES: b"#ifndef HAS_H\n#define HAS_H\n#endif\n",
    }
    assert decided_tree(tree) == {
        "engine/b/a.h": tree["engine/b/a.h"],
        "engine/c.c": b'#include "b/a.h"\nint c;\n',
        "Makefile": b"#if HAS_A\n",
    }


@pytest.mark.parametrize("board", BOARDS)
def test_no_condition_is_left_in_a_tree(board) -> None:
    view = host_view(board())
    for name, content in firmware_tree(view).items():
        assert not ASKED.search(content.decode()), name


def test_every_name_that_a_condition_asks_for_is_one_that_some_keyboard_has() -> None:
    views = [host_view(board()) for board in BOARDS]
    sources = (resource("templates") / "firmware").rglob("*.*")
    asked = {name for path in sources for name in ASKED.findall(path.read_text("utf-8"))}
    known = {feature for view in views for feature in view.features}
    others = {"HAS_DOUBLE_RESET", "HAS_LONG_SCAN"}  # of a port, and of a slow matrix
    assert asked == known | others | set(host_bench("rp2040").features)
