"""Kinds of edits with their truth (`edit_table.py`): nothing told that is not so, nothing missed.

What work somebody has is stated there by hand; whether the image is another one is measured here,
by the C that is built of both sides.
"""

from __future__ import annotations

import pytest

from matrixgen.compare import compare
from matrixgen.compare.fact_lines import fact_lines
from matrixgen.compare.works import RECORDS
from matrixgen.model import Identity
from tests.compare.edit_table import EDITS, GONE, ONE_WAY, PAD, sides_of
from tests.compare.truth import assert_is_told_as, compare_texts, most_work, works_of
from tests.language.test_fields import Versioned, with_version
from tests.texts import edited, examined


@pytest.mark.parametrize("name", EDITS)
def test_an_edit_is_told_as_what_it_is(name):
    work, is_other, *_ = EDITS[name]
    old, new = sides_of(EDITS[name])
    assert new != old
    assert_is_told_as(old, new, work, is_other=is_other)
    back = compare_texts(new, old)
    told = [(one.kind, one.text) for one in back.changes]
    assert (back.kind == work) != name.endswith(ONE_WAY), told
    if back.kind == work and examined(new).is_sound:
        assert any(change.needs_image for change in back.changes) == is_other, told


OF_NAMES = (
    "name",
    "names",
    "a controller more",
    "its cell as before",
    "which is what it types",
)
"""Edits after which facts have other names: lines do not say which thing was which."""


def is_of_names(name: str) -> bool:
    return name.endswith(OF_NAMES) or "rows called columns" in name


@pytest.mark.few(100)
@pytest.mark.parametrize("name", [one for one in EDITS if not is_of_names(one)])
def test_facts_say_the_same_work(name):
    assert (most_work(*sides_of(EDITS[name])) == EDITS[name].work) != name.endswith(GONE)


def test_facts_tell_of_another_image_besides_the_iron():
    assert works_of(*sides_of(EDITS["hands: a gap that moves the hands' middle"])) == {
        "reflash",
        "solder",
    }


def test_there_are_many_kinds_and_of_each_work():
    assert len(EDITS) >= 120
    works = [edit.work for edit in EDITS.values()]
    assert all(works.count(work) >= 30 for work in ("solder", "reflash", "cosmetic"))


NESTED = [("third F8", "third spare")]


@pytest.mark.parametrize(
    ("before", "after", "says"),
    [
        (NESTED, NESTED, ""),
        ([], NESTED, ""),
        ([], [("Q = 1", "Q = spare")], ""),
        ([], [], ", and no key uses it"),
        (NESTED, [], ", and no key uses it"),
    ],
)
def test_that_no_key_uses_an_action_is_said_where_it_is_so(before, after, says):
    """A name within another action, such as a second press, is a use, too."""
    new = edited(PAD, [*after, ("spare = Ctrl+V", "spare = F8")], 1)
    told = [one.text for one in compare_texts(edited(PAD, before, 1), new).changes]
    assert f"action `spare` changed from `Ctrl+V` to `F8`{says}" in told


def test_the_pad_is_sound():
    assert examined(PAD).is_finished, [one.message for one in examined(PAD).findings]


def test_a_row_put_on_top_moves_no_key():
    placed = PAD[PAD.index("  hole") : PAD.index("  outline")]
    lights = "  light CapsLock at 8.5, 4\n  light lamp at 8.5, 5\n"
    text = edited(PAD, [(placed, ""), (lights, "")])
    new = [
        ("  line Q  ~1", "  line N\n  line Q  ~1"),
        ("at 1, 3", "at 1, 4"),
        ("Q to Y", "Q to Y N"),
        ("  column c4", "  column c5 on PB6 N\n  column c4"),
    ]
    slugs = {change.slug for change in compare_texts(text, edited(text, new)).changes}
    assert "key-added" in slugs and "keys-moved" not in slugs


def test_what_a_renamed_knob_does_is_no_news():
    old, new = sides_of(EDITS["knobs: another name"])
    assert [
        change.text for change in compare_texts(old, edited(new, [("PageUp", "Home")])).changes
    ] == [
        "layer `nav`: `wheel.left` changed from `PageUp` to `Home`",
        "knob `dial` is now called `wheel`",
    ]


def test_the_key_of_the_full_stop_is_told_of_where_it_has_another_place():
    text = 'keyboard "Pad"\n  computer fr\n\nplate\n  line . ..2\n'
    lines = fact_lines(examined(text).design)
    for key in (".", "..2"):
        assert f"[reflash] layer base, key {key}: Comma" in lines


def test_a_setting_that_only_the_model_knows_is_told(monkeypatch):
    monkeypatch.setitem(RECORDS, "keyboard", (Identity, Versioned))
    old, new = with_version(None), with_version("1.2")
    found = compare(old, new)
    assert [(change.kind, change.text) for change in found.changes] == [
        ("reflash", "the version changed from the default to `1.2`")
    ]
    assert "[reflash] version: 1.2" in fact_lines(new)
