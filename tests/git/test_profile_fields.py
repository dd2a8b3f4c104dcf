"""A field of a maker's own profile asks for the work that its mark says: by images that are built.

What is cosmetic leaves the image as it is, and what is a reflash does not.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from matrixgen.boards import Profile
from matrixgen.jobs.build import build_mounted
from matrixgen.jobs.compare import compared
from matrixgen.jobs.examine import examine_text
from matrixgen.model.work import fields_of
from tests.git.test_own_boards import TEXT, profile

SETTLED = TEXT.replace("wiring\n", "wiring\n  settle 9 us\n")

CHANGES = {
    "title": ("cosmetic", "Another title"),
    "clock_hz": ("reflash", 8_000_000),
    "ram_bytes": ("reflash", 500),
    "flash_bytes": ("cosmetic", 15_000),
    "pin_farad": ("cosmetic", 1.1e-11),
}


def built(folder: Path, text: str):
    (folder / "parts").mkdir(exist_ok=True)
    (folder / "parts" / "board.json").write_text(text, encoding="utf-8")
    examined = examine_text("pad.keys", SETTLED, folder)
    assert examined.is_sound, [found.message for found in examined.findings]
    (mounted,) = examined.mounted
    made = build_mounted(mounted, examined.design.source, "pad", None, with_sheet=False)
    return examined, made.files["pad.hex"]


@pytest.mark.parametrize("field", CHANGES)
def test_a_field_of_a_profile_changes_the_image_where_its_mark_says_so(tmp_path, field):
    work, value = CHANGES[field]
    (old, before), (new, after) = (built(tmp_path, profile(**one)) for one in ({}, {field: value}))
    found = compared(old, new)
    assert [(one.kind, one.slug) for one in found.changes] == [(work, "profile-changed")]
    assert (before != after) == (work == "reflash")


def test_every_field_of_a_profile_is_classified():
    assert all(field.work or not field.is_said for field in fields_of(Profile))
