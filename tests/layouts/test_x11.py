"""Every way to every sign, as key events through libxkbcommon's state and its compose state."""

from __future__ import annotations

import copy
import itertools
import random

import pytest

from matrixgen.layouts import HostLayout, KeyStroke, layout_named, layout_names
from matrixgen.layouts.files import document_of
from matrixgen.layouts.marks import read_way
from tests.amounts import amount
from tests.layouts.make import OF_KEYPAD
from tests.layouts.proof import wrong_strokes, wrong_ways
from tests.layouts.x11 import LEVELS, x11_text

PAIRS = amount("MATRIXGEN_LAYOUT_PAIRS", suite=150, long=20_000)
NAMES = layout_names()


def there(name: str, system=None) -> HostLayout:
    found = layout_named(name, system)
    assert found is not None
    return found


@pytest.mark.few(50)
@pytest.mark.parametrize("system", [None, "linux"])
@pytest.mark.parametrize("name", NAMES)
def test_a_way_types_its_sign(name, system):
    assert [*wrong_ways(there(name, system))] == []


@pytest.mark.parametrize("caps", [False, True])
@pytest.mark.parametrize("name", NAMES)
def test_a_stroke_types_what_x11_makes_of_it(name, caps):
    assert [*wrong_strokes(there(name, "linux"), caps=caps)] == []


@pytest.mark.parametrize("name", NAMES)
def test_so_do_a_dead_key_and_another_that_is_none(name):
    layout, chance = there(name, "linux"), random.Random(name)
    keys = [usage for usage in layout.usages if usage not in OF_KEYPAD]
    places = [(usage, at) for usage in keys for at in range(4) if layout.signs(usage)[at]]
    dead = [place for place in places if layout.is_dead(*place)]
    keypad = [read_way(way)[:2] for way in document_of(name).get("keypad on main keys", ())]
    others = [one for one in places if one not in keypad and not layout.is_dead(*one)]
    pairs = [*itertools.product(dead, others)]
    for pair in chance.sample(pairs, min(PAIRS, len(pairs))):
        strokes = [(usage, LEVELS[level]) for usage, level in pair]
        ours = layout.typed(KeyStroke(*stroke) for stroke in strokes)
        assert ours == x11_text(name, strokes), strokes


def test_every_letter_of_the_layouts_with_latin_letters_has_a_way():
    for name in NAMES:
        layout = there(name)
        if layout.has_latin:
            assert all(layout.way(sign) for sign in "abcdefghijklmnopqrstuvwxyz0123456789 "), name


def test_a_sign_on_a_wrong_level_is_found():
    document = copy.deepcopy(document_of("de"))
    document["keys"]["14"] = ["q", "Q", "Ω", "@"]
    planted = HostLayout(document, "linux")
    assert any(one.startswith("'@'") for one in wrong_ways(planted))
    assert len([*wrong_strokes(planted, caps=False)]) == 2


def test_a_wrong_caps_lock_is_found():
    document = copy.deepcopy(document_of("de"))
    document["caps lock"]["letters"] += " 1E"
    assert len([*wrong_strokes(HostLayout(document, "linux"), caps=True)]) == 2
