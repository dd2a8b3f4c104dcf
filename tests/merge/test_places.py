"""Screw holes and areas have no names: what each side did to which is told by their places."""

from __future__ import annotations

from collections import Counter

import pytest

from matrixgen.merge import merge
from matrixgen.model import SourceText
from matrixgen.source import design_of
from tests import texts

BASE = """\
plate
  line A B C
  hole at 1, 2        # by the jack
  hole at 2, 2
  hole at 3, 2
  keep clear 5, 0, 1, 2
  line D E F
  keep clear 7, 0, 1, 2
"""


def edited(*pairs: texts.Pair) -> str:
    return texts.edited(BASE, pairs)


JACK = "hole at 1, 2        # by the jack"
FIRST, SECOND = f"  {JACK}\n", "  hole at 2, 2\n"
END = "line D E F\n"

CLEAN = {
    "one gone, another one moved": (
        (FIRST, ""),
        ("at 3, 2", "at 3, 4"),
        [JACK, "hole at 3, 2"],
        ["hole at 3, 4"],
    ),
    "two moved": (
        ("at 1, 2", "at 1, 4"),
        ("at 3, 2", "at 3, 4"),
        [JACK, "hole at 3, 2"],
        ["hole at 1, 4        # by the jack", "hole at 3, 4"],
    ),
    "two added behind the same line": (
        (END, f"{END}  hole at 8, 8\n"),
        (END, f"{END}  hole at 9, 9\n"),
        [],
        ["hole at 8, 8", "hole at 9, 9"],
    ),
    "the same one added by both": (
        (END, f"{END}  hole at 8, 8\n"),
        (SECOND, f"{SECOND}  hole at 8, 8\n"),
        [],
        ["hole at 8, 8"],
    ),
    "one added where the other side puts a line of keys": (
        (END, f"{END}  hole at 8, 8\n"),
        (END, f"{END}  line G\n"),
        [],
        ["hole at 8, 8", "line G"],
    ),
    "an area moved, and given another size": (
        ("5, 0, 1, 2", "5, 0.5, 1, 2"),
        ("5, 0, 1, 2", "5, 0, 1.5, 2"),
        ["keep clear 5, 0, 1, 2"],
        ["keep clear 5, 0.5, 1.5, 2"],
    ),
    "a comment, and a place": (
        ("by the jack", "under the jack"),
        ("at 1, 2", "at 1, 2.5"),
        [JACK],
        ["hole at 1, 2.5        # under the jack"],
    ),
    "one written in another way, and another one gone": (
        ("hole at 1, 2 ", "hole  at 1,2 "),
        (SECOND, ""),
        [JACK, "hole at 2, 2"],
        ["hole  at 1,2        # by the jack"],
    ),
}


def test_what_both_add_behind_one_line_stands_in_the_order_of_ours_and_theirs():
    ours, theirs, *_ = CLEAN["two added behind the same line"]
    merged = merge(BASE, edited(ours), edited(theirs))
    assert merged is not None and f"{END}  hole at 8, 8\n  hole at 9, 9\n" in merged.text


def lines_of(text: str) -> Counter[str]:
    return Counter(line.strip() for line in text.splitlines())


@pytest.mark.parametrize("name", CLEAN)
def test_what_both_sides_did_to_holes_and_areas_is_done(name):
    ours, theirs, went, came = CLEAN[name]
    for one, two in ((ours, theirs), (theirs, ours)):
        merged = merge(BASE, edited(one), edited(two))
        assert merged is not None and not merged.conflicts, merged
        assert design_of(SourceText("merged", merged.text))[1] == []
        before, after = lines_of(BASE), lines_of(merged.text)
        assert (before - after, after - before) == (Counter(went), Counter(came))


@pytest.mark.parametrize(
    ("ours", "theirs", "label", "mine", "other"),
    [
        (("at 2, 2", "at 2, 3"), ("at 2, 2", "at 2, 4"), "place of hole at 2, 3", "2, 3", "2, 4"),
        (("at 2, 2", "at 2, 3"), (SECOND, ""), "hole at 2, 3", "2, 3", None),
        (
            ("7, 0, 1, 2", "7, 0, 1, 3"),
            ("7, 0, 1, 2", "7, 0, 1, 4"),
            "size of keep clear 7, 0, 1, 3",
            "7, 0, 1, 3",
            "7, 0, 1, 4",
        ),
    ],
    ids=["two places", "moved and gone", "two sizes"],
)
def test_one_place_changed_in_two_ways_is_a_conflict(ours, theirs, label, mine, other):
    merged = merge(BASE, edited(ours), edited(theirs))
    assert merged is not None and merged.conflicts == (label,)
    inside = merged.text.partition("<<<<<<< ours: ")[2].partition(">>>>>>>")[0]
    one, _, two = inside.partition("=======\n")
    assert f"{mine}\n" in one
    assert f"{other}\n" in two if other else two == ""


PLACED = {
    "one moves it, the other turns it": (
        "  controller at 9, 1 turned 90\n",
        "  controller at 9, 0 turned 180\n",
        "  controller at 9, 1 turned 180\n",
    ),
    "one moves it, the other lets it be": (
        "  controller at 9, 1 turned 90\n",
        "  controller at 9, 0 turned 90\n",
        "  controller at 9, 1 turned 90\n",
    ),
    "one takes it away": ("", "  controller at 9, 0 turned 90\n", ""),
}


@pytest.mark.parametrize("turned_round", [False, True])
@pytest.mark.parametrize("name", PLACED)
def test_the_controller_s_place_is_one_statement_with_the_changes_of_both(name, turned_round):
    base = BASE + "  controller at 9, 0 turned 90\n"
    ours, theirs, expected = (BASE + line for line in PLACED[name])
    sides = (theirs, ours) if turned_round else (ours, theirs)
    merged = merge(base, *sides)
    assert merged is not None and not merged.conflicts
    assert merged.text == expected


def test_two_places_for_one_controller_are_a_conflict():
    sides = [BASE + f"  controller at 9, {y}\n" for y in (1, 2)]
    for base in (BASE, BASE + "  controller at 9, 0\n"):
        merged = merge(base, *sides)
        assert merged is not None and len(merged.conflicts) == 1
        assert merged.text.count("\n  controller at") == 2
    assert merge(BASE, sides[0], sides[0]).text == sides[0]
