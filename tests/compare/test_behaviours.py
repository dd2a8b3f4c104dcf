"""What is told of keys that wait, of those with two meanings, and of layers that need others."""

import pytest

from tests.compare.truth import compare_texts
from tests.language.whole import completed
from tests.texts import edited

PAD = completed(
    'keyboard "Pad"\n  controller stick-32u4\n  debounce 5 ms, press 2 ms\n  once lasts 900 ms\n'
    "  remember base\n\n"
    "layer base\n  A = tap A, hold layer one, after 180 ms, by press  B = hold layer two\n"
    "  C = once layer three  D = change base to three\n\n"
    "layer one\n  B = 1\n\nlayer two\n  B = 2\n\nlayer three\n  D = change base to base\n\n"
    "layer both while one and two are on\n  B = 3  C = 4\n"
)
TOLD = {
    "press": ("press 2 ms", "press 3 ms", "the time of a press changed from 2 ms to 3 ms"),
    "no press": (", press 2 ms", "", "the time of a press changed from 2 ms to the default"),
    "once": ("900 ms", "800 ms", "the time that once lasts changed from 900 ms to 800 ms"),
    "for ever": (
        "  once lasts 900 ms\n",
        "",
        "the time that once lasts changed from 900 ms to the default",
    ),
    "forgets": ("  remember base\n", "", "a changed base no longer outlasts a power cut"),
    "what decides": (
        "180 ms, by press",
        "250 ms",
        "layer `base`: `A` changed from `tap A, hold layer one, after 180 ms, by press` to "
        "`tap A, hold layer one, after 250 ms`",
    ),
    "needs": (
        "both while one and two are",
        "both while three and two are",
        "layer `both` is now on while `three` and `two` are; it was on while `one` and `two` are",
    ),
    "needs none": (
        "both while one and two are on",
        "both",
        "layer `both` is now on only by keys; it was on while `one` and `two` are",
    ),
}


@pytest.mark.parametrize(("there", "instead", "told"), TOLD.values(), ids=TOLD)
def test_a_change_is_told_in_these_words_and_asks_for_a_reflash(there, instead, told):
    found = compare_texts(PAD, edited(PAD, [(there, instead)]))
    assert [(change.text, change.kind) for change in found.changes] == [(told, "reflash")]


def test_it_remembers_the_base_from_now_on():
    without = PAD.replace("  remember base\n", "")
    (change,) = compare_texts(without, PAD).changes
    assert change.text == "a changed base outlasts a power cut"
    assert change.slug == "remember-base-changed"


@pytest.mark.parametrize(
    ("there", "instead"),
    [
        ("hold layer one, after 180 ms, by press", "hold layer one , by press,after 180ms"),
        ("while one and two are", "while two and one are"),
        ("press 2 ms", "press 2.0ms"),
    ],
)
def test_the_same_in_other_words_is_no_change(there, instead):
    (change,) = compare_texts(PAD, edited(PAD, [(there, instead)])).changes
    assert change.slug == "written-otherwise"


def test_a_layer_that_is_called_otherwise_is_one_change_whatever_names_it():
    renamed = PAD.replace("layer one", "layer uno").replace("while one", "while uno")
    renamed = renamed.replace("layer three", "layer tres").replace("base to three", "base to tres")
    found = compare_texts(PAD, renamed)
    assert {change.slug for change in found.changes} == {"layer-renamed"}
    assert found.headline.startswith("cosmetic only")


TWO_BASES = PAD.replace("once layer three", "change base to two")
BASES = {
    "another order": (
        [("layer two\n  B = 2\n\n", ""), ("layer both", "layer two\n  B = 2\n\nlayer both")],
        [
            "a keyboard that has kept the base `two` will take it for `three`",
            "a keyboard that has kept the base `three` will take it for `two`",
        ],
    ),
    "one less": (
        [("change base to two", "2")],
        [
            "a keyboard that has kept the base `two` starts at `base`",
            "a keyboard that has kept the base `three` starts at `base`",
        ],
    ),
    "one more": (
        [("A = tap A, hold layer one, after 180 ms, by press", "A = change base to one")],
        [
            "a keyboard that has kept the base `two` starts at `base`",
            "a keyboard that has kept the base `three` starts at `base`",
        ],
    ),
    "another name": ([("two", "zwei")], []),
    "names exchanged": ([("two", "TWO"), ("three", "two"), ("TWO", "three")], []),
    "another key": ([("B = 2", "B = 9")], []),
    "another layer beneath": ([("\nlayer two\n", "\nlayer four\n  B = 4\n\nlayer two\n")], []),
}


def test_a_new_layer_that_needs_others_is_one_change():
    """What it needs is said with it."""
    more = PAD + "\nlayer all while one and three are on\n  A = 4\n"
    for old, new, slug in ((PAD, more, "layer-added"), (more, PAD, "layer-removed")):
        assert [one.slug for one in compare_texts(old, new).changes] == [slug]


@pytest.mark.parametrize(("edits", "told"), BASES.values(), ids=BASES)
def test_a_kept_base_that_the_new_image_does_not_know_is_told(edits, told):
    found = compare_texts(TWO_BASES, edited(TWO_BASES, edits))
    assert [one.text for one in found.changes if one.slug == "kept-base-lost"] == told
    assert not told or found.kind == "reflash"


def test_no_base_is_lost_where_none_is_kept():
    forgets = TWO_BASES.replace("  remember base\n", "")
    fewer = TWO_BASES.replace("change base to two", "2")
    for old, new in ((forgets, fewer), (TWO_BASES, fewer.replace("  remember base\n", ""))):
        assert "kept-base-lost" not in {c.slug for c in compare_texts(old, new).changes}
