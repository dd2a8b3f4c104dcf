"""Any two sound files of the tests, however unlike: the edits make the one of the other."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from random import Random

import pytest

from matrixgen.compare.facts import facts_of
from matrixgen.jobs.compare import compared
from matrixgen.jobs.examine import Examined, examine
from tests.amounts import amount
from tests.compare.applied import applied

TESTS = Path(__file__).parents[1]
PAIRS = amount("MATRIXGEN_PAIRS", suite=20, long=1000)

ONE_WAY = {"area-removed", "controller-place-given"}
"""Changes that ask for no work, and for some the other way round."""


@cache
def sound() -> tuple[Examined, ...]:
    paths = sorted([*TESTS.rglob("fine*.keys"), *(TESTS.parent / "examples").rglob("*.keys")])
    read = (examine(str(path)) for path in paths)
    return tuple(one for one in read if one.design and one.is_sound)


@pytest.mark.few(3)
@pytest.mark.parametrize("seed", range(10))
def test_the_edits_between_any_two_files_make_the_one_of_the_other(seed):
    chance = Random(seed)
    for _ in range(PAIRS):
        old, new = chance.choice(sound()), chance.choice(sound())
        found = compared(old, new)
        assert applied(found.edits, facts_of(old.design)) == facts_of(new.design)
        assert (found.kind == "none") == (old.text == new.text)
        back = compared(new, old)
        slugs = {change.slug for change in (*found.changes, *back.changes)}
        if not slugs & ONE_WAY:
            assert back.kind == found.kind, (old.path, new.path, found.headline, back.headline)


def test_there_are_many_of_them():
    assert len(sound()) > 80
