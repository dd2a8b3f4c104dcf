"""Windows and macOS: every row of the table agrees with the ways there."""

from __future__ import annotations

import re
import unicodedata

import pytest

from matrixgen.layouts import KeyStroke, layout_named, layout_names
from matrixgen.layouts.strokes import modifiers_of
from tests.layouts.differences import IN_TABLE, SYSTEMS, is_compared, rows, ways
from tests.layouts.make import layout_file
from tests.layouts.x11 import LEVELS

REGISTRY = {of_table: name for name, of_table in IN_TABLE.items()}
LAYOUTS = sorted({row["layout"] for row in rows()})
"""Of the table, by its own names."""


def first_strokes(cell: str, system: str) -> set[KeyStroke]:
    """The stroke that each way of a cell begins with; two strokes where the key is a dead one."""
    found = set()
    for way in ways(cell):
        words = way.removesuffix(" dead ").split()
        level = ("Shift" in words) + 2 * ("AltGr" in words)
        found.add(KeyStroke(int(words[-1], 16), modifiers_of(level, system)))
    return found


def rows_of(layout: str) -> list[dict[str, str]]:
    return [row for row in rows() if row["layout"] == layout]


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("of_table", LAYOUTS)
def test_a_sign_is_typed_as_its_row_says(of_table, system):
    layout = layout_named(REGISTRY.get(of_table, of_table), system)
    assert layout is not None
    for row in rows_of(of_table):
        sign, way = row["sign"], layout.way(row["sign"])
        listed = first_strokes(row[SYSTEMS[system]], system)
        if system == "linux" and way and way[0] not in listed:
            # X11 has ways with two strokes that the table leaves out.
            assert len(way) == 2 and layout.typed(way) == sign, sign
        elif listed:
            assert way and way[0] in listed, sign
            assert layout.typed(way) == sign
        else:
            assert way is None or len(way) == 2, sign


def is_accent(row: dict[str, str]) -> bool:
    """Whether a sign is only a dead key's, and one of which Linux makes a quote before Space."""
    return row["sign"] in "´¨" and row["linux_xkb"].endswith("(dead)")


@pytest.mark.parametrize("of_table", LAYOUTS)
def test_a_way_for_no_system_is_one_that_linux_and_windows_share(of_table):
    name = REGISTRY.get(of_table, of_table)
    layout, on_windows = layout_named(name), layout_named(name, "windows")
    assert layout and on_windows
    for row in rows_of(of_table):
        sign, way = row["sign"], layout.way(row["sign"])
        both = first_strokes(row["linux_xkb"], "linux") & first_strokes(row["windows"], "windows")
        if row["class"] == "mac_differs" and not is_accent(row):
            assert way and way[0] in both, sign
        if way:
            assert layout.typed(way) == on_windows.typed(way) == sign
        assert layout.has_somewhere(sign), sign


@pytest.mark.parametrize("name", layout_names())
def test_every_ascii_sign_has_a_way_wherever_a_layout_is_compared(name):
    for system in ("windows", "macos"):
        layout = layout_named(name, system)
        assert layout and layout.is_known == layout.is_compared == is_compared(name)
        lacks = [sign for sign in map(chr, range(32, 127)) if layout.way(sign) is None]
        listed = [r["sign"] for r in rows() if REGISTRY.get(r["layout"], r["layout"]) == name]
        assert not layout.is_known or set(lacks) <= set(listed), lacks


@pytest.mark.parametrize("name", [*filter(is_compared, layout_names())])
def test_each_stroke_of_a_shared_way_is_known_on_windows(name):
    """A stroke of which nothing is known there may type anything."""
    layout, on_windows = layout_named(name), layout_named(name, "windows")
    for sign in layout.typable():
        for stroke in layout.way(sign) or ():
            level = LEVELS.index(stroke.modifiers)
            assert on_windows.signs(stroke.usage)[level], f"{sign} needs {stroke}"


@pytest.mark.few(60)
@pytest.mark.parametrize("name", layout_names())
@pytest.mark.parametrize("system", SYSTEMS)
def test_each_way_types_its_sign_on_its_own_system(name, system):
    layout = layout_named(name, system)
    assert layout is not None
    for sign in layout.typable():
        typed = layout.typed(layout.way(sign) or ())
        assert unicodedata.normalize("NFC", typed) == sign


def test_nothing_is_claimed_where_only_x11_is_known():
    layout = layout_named("fi", "macos")
    assert layout and not layout.is_known and layout.way("a") is None and layout.typable() == ()
    assert layout.has_somewhere("a") and layout.signs(0x04)[0] == "a"
    assert layout_file("fi")["elsewhere"] is None


def test_a_layout_without_a_row_is_the_same_on_all_three():
    for sign in map(chr, range(32, 127)):
        found = {layout_named("us", system).way(sign) for system in (None, *SYSTEMS)}
        assert len(found) == 1 and None not in found, sign


def test_the_table_has_the_14_layouts_that_it_was_made_for():
    compared = [name for name in layout_names() if is_compared(name)]
    assert len(compared) == 14 and re.fullmatch(r"ch cz de .* us\(intl\)", " ".join(compared))
    assert len(rows()) == 176


def test_the_20_signs_that_linux_and_windows_type_differently_have_no_shared_way():
    """Two accents more: Linux makes a quote of these dead keys before Space."""
    lacking = {
        (row["layout"], row["sign"])
        for row in rows()
        if layout_named(REGISTRY.get(row["layout"], row["layout"])).way(row["sign"]) is None
    }
    told = {(row["layout"], row["sign"]) for row in rows() if row["class"] != "mac_differs"}
    assert len(told) == 20 and lacking == told | {("pt", "¨"), ("no", "´")}
