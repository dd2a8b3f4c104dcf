"""What the computer is set to, and what keys type, changed on both sides."""

from __future__ import annotations

import pytest

from matrixgen.merge import merge
from tests.compare.test_computer import PAD
from tests.texts import edited

COMPUTER = ("computer   de", "computer   us")
TEXT = ('"abc"', '"a,b  # c"')

TOGETHER = {
    "a computer and a text": ([COMPUTER], [TEXT]),
    "a computer and its system": ([COMPUTER], [("computer   de", "computer   de on windows")]),
    "a text and a pace": ([TEXT], [("\nplate", "  pace       8 ms\n\nplate")]),
}


@pytest.mark.parametrize("name", TOGETHER)
@pytest.mark.parametrize("way", [1, -1], ids=("ours", "theirs"))
def test_what_each_side_changed_is_changed(name, way):
    ours, theirs = TOGETHER[name][::way]
    merged = merge(PAD, edited(PAD, ours), edited(PAD, theirs))
    assert merged.conflicts == ()
    both = [("   de", "   us on windows")] if "system" in name else [*ours, *theirs]
    assert merged.text == edited(PAD, both)


CONFLICTS = {
    "another computer": (COMPUTER, ("computer   de", "computer   at"), "computer"),
    "another text": (TEXT, ('"abc"', '"abd"'), "key T on layer nav"),
    "a text and a wait in one action": (
        ('"Tag: ja"', '"Tag"'),
        ("wait 100", "wait 200"),
        "action greet",
    ),
}


@pytest.mark.parametrize("name", CONFLICTS)
def test_one_thing_that_both_changed_is_a_conflict(name):
    ours, theirs, where = CONFLICTS[name]
    merged = merge(PAD, edited(PAD, [ours]), edited(PAD, [theirs]))
    assert merged.conflicts == (where,)
