"""`usage PAGE NUMBER`: the numbers that the tables have are in range, and words are offered.

`hidtools.hut` is the usage table of hid-tools, of a later edition than ours.
"""

import random

import hidtools.hut
import pytest

from matrixgen.layouts import layout_names
from matrixgen.model.actions import Media, Press
from matrixgen.source import read_design
from matrixgen.usages import usages
from matrixgen.usages.media import media_usages
from matrixgen.usages.numbered import PAGES
from tests.language.whole import completed

COMPUTERS = ("", "us", "de", "fr", "ru", "tr", "jp")
KNOWN = [(0x07, usage) for usage in usages()] + list(media_usages())
WITHOUT = [(0x07, 0xA5), (0x0C, 0x001), (0x0C, 0x1B0), (0x0C, 0xFFF), (0x01, 0xA8)]


def read(phrase: str, computer: str = ""):
    """Return what an action is read as, and the findings."""
    setting = f"  computer {computer}\n" if computer else ""
    head = f'keyboard "Heron"\n  controller stick-32u4\n{setting}\n'
    design, found = read_design("usage.keys", completed(f"{head}actions\n  it = {phrase}\n"))
    assert design is not None, found
    return design.keyboard.actions[0].action, found


@pytest.mark.parametrize("computer", [one for one in COMPUTERS if not one or one in layout_names()])
def test_a_number_that_has_a_word_is_that_word_whatever_the_layout(computer: str) -> None:
    worded = 0
    for page, usage in KNOWN:
        action, found = read(f"usage 0x{page:02X} 0x{usage:02X}", computer)
        if not found:
            continue  # no word is that key on this layout
        (one,) = found
        assert one.slug == "number-for-a-word" and one.fix and one.fix.is_certain
        again, none = read(one.fix.edits[0].text, computer)
        assert again == action and none == []
        worded += 1
    assert worded > len(KNOWN) - (50 if computer else 1)


@pytest.mark.parametrize(("page", "usage"), WITHOUT)
def test_a_number_without_a_word_is_sent_as_it_is(page: int, usage: int) -> None:
    expected = Press(usage) if page == 0x07 else Media(page, usage)
    assert read(f"usage 0x{page:02x} 0x{usage:04x}") == (expected, [])
    assert read(expected.phrase) == (expected, [])


def test_the_pages_have_every_number_of_the_tables() -> None:
    for page in (0x07, 0x0C):
        numbers = {number for number in hidtools.hut.HUT[page] if page != 0x07 or number > 3}
        assert all(PAGES[page].first <= one <= PAGES[page].last for one in numbers)
    system = {
        number for number, one in hidtools.hut.HUT[0x01].items() if one.name.startswith("System ")
    } - {0x80}
    inside = {one for one in system if PAGES[0x01].first <= one <= PAGES[0x01].last}
    assert len(inside) >= 15, system - inside


def test_numbers_out_of_range_are_refused_however_large() -> None:
    chance = random.Random(1)
    for _ in range(50):
        page, known = chance.choice(sorted(PAGES.items()))
        number = chance.choice(
            (known.first - 1, known.last + 1, 0x10000, 16 ** chance.randint(5, 99))
        )
        text = completed(f"actions\n  it = usage 0x{page:x} 0x{number:x}\n")
        design, found = read_design("usage.keys", text)
        assert design is None and [one.slug for one in found] == ["number-out-of-range"]
