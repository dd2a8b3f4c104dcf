"""What each kind of change becomes, and what a conflict looks like."""

from __future__ import annotations

import pytest

from matrixgen.merge import merge
from matrixgen.model import SourceText
from matrixgen.source import design_of
from tests import texts

BASE = """\
# top
keyboard "Pad"
  controller atmega32u4
  debounce 5 ms

plate
  line A B C   # first
  line K1 K2 K3

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A to C
  row    r1 on PD1  K1 to K3
  column c0 on PB0  A K1
  column c1 on PB1  B K2
  column c2 on PB2  C K3

actions
  copy = Ctrl+C

layer base
  K1 = hold layer nav  K2 = copy
  K3 = Esc

layer nav
  1 ~ 3
  ~ 5 6   # row two
"""
ADDED = (
    ("A B C ", "A B Ins C "),
    ("1 ~ 3", "1 ~ ~ 3"),
    ("on PB2  C K3", "on PB2  C K3\n  column c3 on PB3  Ins"),
)
REMOVED = (
    ("line K1 K2 K3", "line K1 K2"),
    ("PD1  K1 to K3", "PD1  K1 K2"),
    ("PB2  C K3", "PB2  C"),
    ("  K3 = Esc\n", ""),
    ("~ 5 6", "~ 5"),
)
SECOND = (
    ("atmega32u4", "atmega32u4, rp2040-40pin"),
    ("on PD0", "on PD0, GP0"),
    ("on PD1", "on PD1, GP1"),
    ("on PB0", "on PB0, GP2"),
    ("on PB1", "on PB1, GP3"),
    ("on PB2", "on PB2, GP4"),
)


def edited(*pairs: texts.Pair) -> str:
    return texts.edited(BASE, pairs)


def lines_of(ours: str, theirs: str) -> tuple[list[str], list[str]]:
    """The lines that are new in a clean merge, and those that went."""
    merged = merge(BASE, ours, theirs)
    assert merged is not None and not merged.conflicts, merged
    assert design_of(SourceText("merged", merged.text))[1] == [], merged.text
    before, after = BASE.splitlines(), merged.text.splitlines()
    return [one for one in after if one not in before], [one for one in before if one not in after]


CLEAN = {
    "cells of one line": (
        (("K1 = hold", "K1 = latch"),),
        (("K2 = copy", "K2 = Tab"),),
        ["  K1 = latch layer nav  K2 = Tab"],
    ),
    "cells of one row": ((("~ 5 6", "4 5 6"),), (("~ 5 6", "~ 5 F6"),), ["  4 5 F6   # row two"]),
    "a key's name, and its cell": (
        (("K1", "Fn"),),
        (("= hold layer", "= latch layer"),),
        [
            "  line Fn K2 K3",
            "  row    r1 on PD1  Fn to K3",
            "  column c0 on PB0  A Fn",
            "  Fn = latch layer nav  K2 = copy",
        ],
    ),
    "a layer's name, and its cells": (
        (("nav", "move"),),
        (("1 ~ 3", "1 2 3"),),
        ["  K1 = hold layer move  K2 = copy", "layer move", "  1 2 3"],
    ),
    "a wire's name, and its pin": (
        (("r1 on", "low on"),),
        (("r1 on PD1", "r1 on PD4"),),
        ["  row    low on PD4  K1 to K3"],
    ),
    "an action's name, and a new use of it": (
        (("copy", "dup"),),
        (("K3 = Esc", "K3 = copy"),),
        ["  dup = Ctrl+C", "  K1 = hold layer nav  K2 = dup", "  K3 = dup"],
    ),
    "a debounce time, and the time of a press": (
        (("5 ms", "5 ms, press 2 ms"),),
        (("5 ms", "6 ms"),),
        ["  debounce 6 ms, press 2 ms"],
    ),
    "a layer's name, and a tap and hold": (
        (("nav", "move"),),
        (("K3 = Esc", "K3 = tap Esc, hold layer nav, after 250 ms"),),
        [
            "  K1 = hold layer move  K2 = copy",
            "  K3 = tap Esc, hold layer move, after 250 ms",
            "layer move",
        ],
    ),
    "an action's name that is a word elsewhere, and a tap and hold": (
        (("copy", "time"),),
        (("K3 = Esc", "K3 = tap copy, hold Ctrl, by time"),),
        [
            "  time = Ctrl+C",
            "  K1 = hold layer nav  K2 = time",
            "  K3 = tap time, hold Ctrl, by time",
        ],
    ),
    "a layer's name, and a layer that needs it": (
        (("nav", "move"),),
        (
            ("K3 = Esc", "K3 = change base to nav"),
            (
                "# row two\n",
                "# row two\n\nlayer sys\n  A = 1\n\nlayer both while sys and nav are on\n  A = 2\n",
            ),
        ),
        [
            "  K1 = hold layer move  K2 = copy",
            "  K3 = change base to move",
            "layer move",
            "layer sys",
            "  A = 1",
            "layer both while sys and move are on",
            "  A = 2",
        ],
    ),
    "two cells of one line, one of them a tap and hold": (
        (("K1 = hold layer nav", "K1 = tap Tab, hold layer nav"),),
        (("K2 = copy", "K2 = tap copy, hold Alt, roll 0 ms"),),
        ["  K1 = tap Tab, hold layer nav  K2 = tap copy, hold Alt, roll 0 ms"],
    ),
    "a key, and a cell of a picture beside it": (
        ADDED,
        (("1 ~ 3", "1 2 3"),),
        ["  line A B Ins C   # first", "  column c3 on PB3  Ins", "  1 2 ~ 3"],
    ),
    "a key, and a new picture": (
        ADDED,
        (("# row two\n", "# row two\n\nlayer sys\n  F1 F2 F3\n  F4 F5 F6\n"),),
        [
            "  line A B Ins C   # first",
            "  column c3 on PB3  Ins",
            "  1 ~ ~ 3",
            "layer sys",
            "  F1 F2 ~ F3",
            "  F4 F5 F6",
        ],
    ),
    "a key gone, and other cells": (
        REMOVED,
        (("~ 5 6", "~ F5 6"), ("5 ms", "6 ms")),
        [
            "  debounce 6 ms",
            "  line K1 K2",
            "  row    r1 on PD1  K1 K2",
            "  column c2 on PB2  C",
            "  ~ F5   # row two",
        ],
    ),
    "a line split in two, and a cell": (
        (("nav  K2", "nav\n  K2"),),
        (("K2 = copy", "K2 = Tab"),),
        ["  K1 = hold layer nav", "  K2 = Tab"],
    ),
    "a comment, and a size": (
        (("# first", "# the first"),),
        (("A B C", "A:1.5 B C"),),
        ["  line A:1.5 B C   # the first"],
    ),
    "two settings at one place": (
        (("5 ms", '5 ms\n  maker "x"'),),
        (("5 ms", "5 ms\n  usb 1209:0001"),),
        ['  maker "x"', "  usb 1209:0001"],
    ),
    "a controller with pins for all, and a pin": (
        SECOND,
        (("on PD0", "on PD4"),),
        [
            "  controller atmega32u4, rp2040-40pin",
            "  row    r0 on PD4, GP0  A to C",
            "  row    r1 on PD1, GP1  K1 to K3",
            "  column c0 on PB0, GP2  A K1",
            "  column c1 on PB1, GP3  B K2",
            "  column c2 on PB2, GP4  C K3",
        ],
    ),
    "a list made a picture, and a cell": (
        (
            ("  K1 = hold layer nav  K2 = copy\n  K3 = Esc", "  A B C\n  nv copy Esc"),
            ("Ctrl+C", "Ctrl+C\n  nv = hold layer nav"),
        ),
        (("K3 = Esc", "K3 = Tab"),),
        ["  nv = hold layer nav", "  A B C", "  nv copy Tab"],
    ),
    "a run spelt out for a key of another wire": (
        (
            ("line A B C", "line A Ins B C"),
            ("A to C", "A B C"),
            ("C K3", "C K3 Ins"),
            ("K1 to K3", "K1 to K3 Ins"),
            ("1 ~ 3", "1 ~ ~ 3"),
        ),
        (
            ("line A B C", "line A B C Del"),
            ("on PB1  B", "on PB1  Del B"),
            ("A to C", "A to Del"),
            ("1 ~ 3", "1 ~ 3 ~"),
        ),
        [
            "  line A Ins B C Del   # first",
            "  row    r0 on PD0  A B to Del",
            "  row    r1 on PD1  K1 to K3 Ins",
            "  column c1 on PB1  Del B K2",
            "  column c2 on PB2  C K3 Ins",
            "  1 ~ ~ 3 ~",
        ],
    ),
}


@pytest.mark.parametrize("name", CLEAN)
def test_different_things_are_merged(name):
    ours, theirs, new = CLEAN[name]
    found, _ = lines_of(edited(*ours), edited(*theirs))
    assert found == new
    back, _ = lines_of(edited(*theirs), edited(*ours))
    assert sorted(back) == sorted(new) or name == "a list made a picture, and a cell"


def conflicts_of(ours: str, theirs: str) -> tuple[tuple[str, ...], str]:
    """What the conflicts are about, and the text between their markers."""
    merged = merge(BASE, ours, theirs)
    assert merged is not None and merged.conflicts
    _, found = design_of(SourceText("merged", merged.text))
    assert {one.slug for one in found} == {"merge-conflict"}
    assert len(found) == len(merged.conflicts)
    inside, shown = False, []
    for line in merged.text.splitlines():
        inside = inside or line.startswith("<<<<<<<")
        if inside:
            shown.append(line)
        inside = inside and not line.startswith(">>>>>>>")
    return merged.conflicts, "\n".join(shown)


def between(label: str, ours: str, theirs: str) -> str:
    one, two = (f"{text}\n" if text else "" for text in (ours, theirs))
    return f"<<<<<<< ours: {label}\n{one}=======\n{two}>>>>>>> theirs"


DISPUTED = {
    "a setting": (
        (("5 ms", "6 ms"),),
        (("5 ms", "7 ms"),),
        "debounce",
        "  debounce 6 ms",
        "  debounce 7 ms",
    ),
    "a cell, and all else on its line is merged": (
        (("K1 = hold", "K1 = latch"), ("K2 = copy", "K2 = Tab")),
        (("K2 = copy", "K2 = Esc"),),
        "key K2 on layer base",
        "  K1 = latch layer nav  K2 = Tab",
        "  K1 = latch layer nav  K2 = Esc",
    ),
    "a pin": (
        (("r1 on PD1", "r1 on PD4"),),
        (("r1 on PD1", "r1 on PD5"),),
        "pin of wire r1",
        "  row    r1 on PD4  K1 to K3",
        "  row    r1 on PD5  K1 to K3",
    ),
    "a comment": (
        (("# first", "# one"),),
        (("# first", "# two"),),
        "comment of the plate",
        "  line A B C   # one",
        "  line A B C   # two",
    ),
    "a cell taken out and changed": (
        (("~ 5 6", "~ 5 ~"),),
        (("~ 5 6", "~ 5 7"),),
        "key K3 on layer nav",
        "  ~ 5 ~   # row two",
        "  ~ 5 7   # row two",
    ),
    "a layer taken out and changed": (
        (("K1 = hold layer nav", "K1 = Tab"), ("\nlayer nav\n  1 ~ 3\n  ~ 5 6   # row two\n", "")),
        (("~ 5 6", "~ 5 7"),),
        "layer nav, key K3 on layer nav",
        "",
        "\nlayer nav\n  1 ~ 3\n  ~ 5 7   # row two",
    ),
}


@pytest.mark.parametrize("name", DISPUTED)
def test_one_thing_changed_in_two_ways_is_a_conflict_of_the_smallest_place(name):
    ours, theirs, label, mine, other = DISPUTED[name]
    labels, shown = conflicts_of(edited(*ours), edited(*theirs))
    assert len(labels) == 1 and labels[0].startswith(label.split(",")[0])
    assert shown == between(labels[0], mine, other)


def test_keys_added_at_one_place_are_a_conflict_of_the_plate_and_of_the_pictures():
    theirs = (("A B C ", "A B Del C "), ("1 ~ 3", "1 ~ F9 3"), ("B K2", "B K2 Del"))
    labels, shown = conflicts_of(edited(*ADDED), edited(*theirs))
    assert labels[0] == "key Ins on the plate, key Del on the plate"
    assert "  line A B Ins C   # first\n=======\n  line A B Del C   # first" in shown
    assert "  1 ~ ~ 3\n=======\n  1 ~ F9 3" in shown
    assert "A to C" not in shown, "the run is the same on both sides"


def test_a_key_renamed_in_two_ways_is_a_conflict_wherever_it_stands():
    labels, shown = conflicts_of(edited(("K1", "Fn")), edited(("K1", "Sym")))
    assert set(labels) == {"key K1, which is Fn or Sym"}
    assert shown.count("Fn") == 4 + len(labels) and shown.count("Sym") == 4 + len(labels)


def test_a_key_renamed_and_taken_out_is_a_conflict():
    labels, shown = conflicts_of(edited(("K3", "Fn")), edited(*REMOVED))
    assert "key K3, which is Fn or gone" in labels
    assert "  line K1 K2 Fn\n=======\n  line K1 K2\n" in shown


def exchanged(text: str, one: str, other: str) -> str:
    return text.replace(one, "\0").replace(other, one).replace("\0", other)


@pytest.mark.parametrize("with_uses", [True, False])
def test_layers_that_exchange_their_names_are_the_same_layers(with_uses):
    """A cell that the other side changed follows its layer to its new name, and no other."""
    base = edited(
        ("K3 = Esc", "K3 = hold layer sys"),
        ("# row two\n", "# row two\n\nlayer sys\n  F1 F2 F3\n  F4 F5 F6\n"),
    )
    ours = (
        exchanged(base, "nav", "sys")
        if with_uses
        else exchanged(base, "layer nav\n", "layer sys\n")
    )
    changed = (("F4 F5 F6", "F4 F5 F12"), ("1 ~ 3", "1 2 3"), ("K2 = copy", "K2 = latch layer nav"))
    theirs = texts.edited(base, changed)
    for versions in ((ours, theirs), (theirs, ours)):
        merged = merge(base, *versions)
        assert merged is not None and not merged.conflicts, merged
        assert "layer sys\n  1 2 3\n" in merged.text
        assert "layer nav\n  F1 F2 F3\n  F4 F5 F12" in merged.text
        assert "K2 = latch layer sys" in merged.text, "what was nav"


def test_a_name_that_is_taken_is_not_given_to_another_key():
    ours = edited(("K1", "Fn"))
    theirs = edited(("line A B C", "line A B C Fn"), ("C K3", "C K3\n  column c3 on PB3  Fn"))
    theirs = theirs.replace("A to C", "A to Fn").replace("K3 = Esc", "K3 = Esc  Fn = Tab")
    theirs = theirs.replace("1 ~ 3", "1 ~ 3 ~")
    ours, theirs = ours.replace("r0 on", "top on"), theirs.replace("r0 on PD0", "r0 on PD4")
    labels, shown = conflicts_of(ours, theirs)
    merged = merge(BASE, ours, theirs)
    assert merged is not None and "row    top on PD4" in merged.text, "other names go on"
    assert {"key Fn on the plate", "key Fn on layer base"} <= set(labels)
    assert "  line A B C   # first\n=======\n  line A B C Fn   # first" in shown


def test_a_key_moved_to_two_lines_is_a_conflict_and_stands_once_on_either_side():
    base = edited(("line K1 K2 K3", "line K1 K2 K3\n  line L M"), ("C K3", "C K3\n  row r2  L M"))
    base = base.replace("~ 5 6   # row two", "~ 5 6   # row two\n  ~ ~").replace(
        "K3 = Esc", "M = 1"
    )
    base = base.replace("M = 1", "K3 = 1").replace("A to C", "A B C")
    ours = base.replace("A B C   ", "A C   ").replace("K2 K3\n", "K2 K3 B\n", 1)
    ours = ours.replace("1 ~ 3", "1 3").replace("~ 5 6", "~ 5 6 ~")
    theirs = base.replace("A B C   ", "A C   ").replace("line L M", "line L B M")
    theirs = theirs.replace("1 ~ 3", "1 3").replace("  ~ ~\n", "  ~ ~ ~\n")
    merged = merge(base, ours, theirs)
    assert merged is not None and "key B on the plate" in merged.conflicts
    for first, last in (("=======", ">>>>>>>"), ("<<<<<<<", "=======")):
        text, skip = [], False
        for line in merged.text.splitlines():
            skip = (skip or line.startswith(first)) and not line.startswith(last)
            if not skip and not line.startswith(("<<<<<<<", "=======", ">>>>>>>")):
                text.append(line)
        assert design_of(SourceText("x", "\n".join(text)))[1] == []


def test_line_ends_marks_and_a_missing_last_one_are_the_file_s():
    theirs = edited(("K3 = Esc", "K3 = Tab"))
    for ours in (
        BASE.replace("\n", "\r\n"),
        "\ufeff" + BASE,
        BASE.removesuffix("\n"),
        ("\ufeff" + BASE).replace("\n", "\r").removesuffix("\r"),
    ):
        for one, two in ((ours, theirs), (theirs, ours)):
            merged = merge(BASE, one, two)
            assert merged is not None
            assert merged.text == ours.replace("K3 = Esc", "K3 = Tab")


def test_comments_go_with_the_statement_that_they_stand_above():
    ours = edited(
        ("  row    r1", "  # the lower one\n  row    r1"), ("layer nav\n", "# arrows\nlayer nav\n")
    )
    theirs = edited(("  row    r1", "  # by hand\n  row    r1"), ("row    r0", "row    top"))
    new, _ = lines_of(ours, theirs)
    assert new == ["  row    top on PD0  A to C", "  # the lower one", "  # by hand", "# arrows"]


def test_a_comment_of_a_line_that_goes_on_is_kept_when_that_line_goes():
    base = BASE.replace("A to C", "A  # one\n    and B  # two\n    and C")
    ours = base.replace("    and B  # two\n", "    and B  # the second\n")
    theirs = (
        base.replace("A B C ", "A C ").replace("\n    and B  # two", "").replace("PB1  B", "PB1 ")
    )
    theirs = theirs.replace("1 ~ 3", "1 3")
    merged = merge(base, ours, theirs)
    assert merged is not None
    assert "# the second" in merged.text


def test_a_comment_of_a_line_that_is_joined_no_more_stands_above():
    base = BASE.replace("A to C", "A  # one\n    and B C  # two")
    ours = base.replace("# one", "# mine").replace("PD0", "PD4")
    theirs = edited(("A to C", "A  # one"), ("line A B C", "line A"), ("1 ~ 3", "1"))
    theirs = theirs.replace("PB1  B K2", "PB1  K2").replace("PB2  C K3", "PB2  K3")
    merged = merge(base, ours, theirs)
    assert merged is not None and not merged.conflicts
    assert "  # mine\n  row    r0 on PD4  A  # one\n" in merged.text


def test_a_line_goes_on_below_where_its_first_key_there_is_gone():
    base = BASE.replace("A to C", "A\n    and B C")
    ours = base.replace("r0 on PD0", "r0  on PD4")
    theirs = edited(("A to C", "A C"), ("line A B C", "line A C"), ("1 ~ 3", "1 3"), ("B K2", "K2"))
    merged = merge(base, ours, theirs)
    assert merged is not None and not merged.conflicts
    assert "  row    r0  on PD4  A\n    and C\n" in merged.text


def test_a_file_that_does_not_read_is_left_to_git():
    assert merge(BASE, BASE.replace("plate", "plat"), edited(("5 ms", "6 ms"))) is None


def test_a_base_with_a_conflict_says_nothing_there():
    base = BASE.replace("  debounce 5 ms\n", "<<<<<<< a\n  debounce 5 ms\n=======\n>>>>>>> b\n")
    one, two = edited(("5 ms", "6 ms")), edited(("5 ms", "6 ms"), ("K3 = Esc", "K3 = Tab"))
    merged = merge(base, one, two)
    assert merged is not None and (merged.text, merged.conflicts) == (two, ())
    other = merge(base, one, edited(("5 ms", "7 ms")))
    assert other is not None and other.conflicts == ("debounce",)
