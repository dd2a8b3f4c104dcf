"""Kinds of edits with their truth (`edit_table.py`): nothing told that is not so, nothing missed.

What work somebody has is stated there by hand; whether the image is another one is measured here,
by the C that is built of both sides.
"""

from __future__ import annotations

import functools
from pathlib import Path

import pytest

from matrixgen.compare.fact_lines import fact_lines
from matrixgen.jobs.compare import compared
from matrixgen.jobs.examine import Examined, examine_text
from matrixgen.model.work import WORKS
from tests.compare.edit_table import EDITS, GONE, ONE_WAY, PAD, edited
from tests.compare.tables import tables_of

TABLES = tables_of(PAD)


@functools.cache
def examined(text: str) -> Examined:
    found = examine_text("pad.keys", text, Path())
    assert found.design, [one.message for one in found.findings]
    return found


@pytest.mark.parametrize("name", EDITS)
def test_an_edit_is_told_as_what_it_is(name):
    work, is_other, replaced = EDITS[name]
    text = edited(replaced)
    assert text != PAD
    new = examined(text)
    found = compared(examined(PAD), new)
    told = [(one.kind, one.text) for one in found.changes]
    assert found.kind == work, told
    back = compared(new, examined(PAD))
    is_same = back.kind == work
    assert is_same != name.endswith(ONE_WAY), [(one.kind, one.text) for one in back.changes]
    if not new.is_sound:
        return  # a band against the scan: there is no image of it
    needs_image = any(change.needs_image for change in found.changes)
    assert (tables_of(text) != TABLES) == is_other, "the truth is not what is built"
    assert needs_image == is_other, told


OF_NAMES = (
    "rows called columns",
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
    work, _, replaced = EDITS[name]
    sides = [fact_lines(examined(text).design) for text in (PAD, edited(replaced))]
    works = {line.split("]")[0][1:] for line in set(sides[0]) ^ set(sides[1])}
    most = next((one for one in WORKS if one in works), "cosmetic")
    assert (most == work) != name.endswith(GONE)


def test_there_are_many_kinds_and_of_each_work():
    assert len(EDITS) >= 120
    works = [work for work, _, _ in EDITS.values()]
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
    old, new = edited(before), edited([*after, ("spare = Ctrl+V", "spare = F8")])
    told = [one.text for one in compared(examined(old), examined(new)).changes]
    assert f"action `spare` changed from `Ctrl+V` to `F8`{says}" in told


def test_the_pad_is_sound():
    assert examined(PAD).is_finished, [one.message for one in examined(PAD).findings]


def test_a_row_put_on_top_moves_no_key():
    text = edited([("  hole at 7, 3\n  hole at 7, 5\n  keep clear 8, 0, 1, 2\n", "")])
    text = text.replace("  controller at 10, 2 turned 90\n", "")
    text = text.replace("  light CapsLock at 8.5, 4\n  light lamp at 8.5, 5\n", "")
    other = text.replace("  line Q  ~1", "  line N\n  line Q  ~1").replace("at 1, 3", "at 1, 4")
    other = other.replace("Q to Y", "Q to Y N").replace(
        "  column c4", "  column c5 on PB6 N\n  column c4"
    )
    found = compared(examined(text), examined(other))
    assert "key-added" in {change.slug for change in found.changes}
    assert "keys-moved" not in {change.slug for change in found.changes}
