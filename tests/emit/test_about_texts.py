"""Where a key types a text, the pages for the bench say who can read it."""

from __future__ import annotations

import pytest

from matrixgen.emit.pin_table import markdown, pin_table
from matrixgen.emit.sheet import page
from tests.compare.test_computer import PAD
from tests.sheet.pictures import sheet_in
from tests.texts import edited, examined

CAUTION = (
    "Whatever a key types can be read out of the image and out of the .keys file: no passwords."
)

WITHOUT = [
    ('greet = type "Tag: ja", then', "greet = A, then"),
    ('T = type "abc"', "T = ê"),
    ('  idle  = type "Zu"\n', ""),
]

KINDS = {
    "a text": ([], True),
    "an idle text": ([("W = greet", "W = A"), ('T = type "abc"', "T = ê")], False),
    "a text that is tapped": ([*WITHOUT, ("E = @", 'E = tap type "ab", hold Shift')], True),
    "no text, but a letter with a dead key": (WITHOUT, False),
}


@pytest.mark.parametrize("name", KINDS)
def test_the_pages_warn_of_texts_and_of_nothing_else(name):
    replaced, has_text = KINDS[name]
    text = edited(PAD, replaced)
    (mounted,) = examined(text).mounted
    pins = " ".join(markdown(pin_table(mounted)).split())
    sheet = page(sheet_in(text)).decode()
    assert pins.count(CAUTION) == sheet.count(CAUTION) == has_text
