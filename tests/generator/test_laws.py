"""What holds of every file, and of every two: the same laws for all rooms, on drawn files.

`MATRIXGEN_DRAWN=2000` draws as many files and revisions; the suite takes fewer.
"""

from __future__ import annotations

from random import Random

import pytest

from matrixgen.compare.facts import facts_of
from matrixgen.format.formatted import formatted
from matrixgen.merge import merge
from matrixgen.model import SourceText
from matrixgen.model.meaning import meaning_of
from matrixgen.source.tree import written
from matrixgen.source.tree_reader import tree_of
from tests.amounts import amount
from tests.compare.applied import applied
from tests.compare.tables import tables_of
from tests.compare.truth import compare_texts, most_work
from tests.generator.files import REVISED, draft
from tests.language.spacing import Spacing, statements_of
from tests.texts import examined

DRAWN = amount("MATRIXGEN_DRAWN", suite=10, long=2000)
FILES, REVISIONS = range(DRAWN), range(DRAWN)


@pytest.mark.parametrize("seed", FILES)
def test_a_file_keeps_its_letters_and_its_meaning_however_it_is_spaced(seed):
    text = draft(seed, sound=seed % 2 == 0).text
    assert written(tree_of(SourceText("pad.keys", text))) == text
    meaning = meaning_of(examined(text).design)
    spaced = Spacing(Random(seed)).text(statements_of(text))
    assert meaning_of(examined(spaced).design) == meaning
    made = formatted(SourceText("pad.keys", spaced))
    assert made.text is not None, made.findings
    assert meaning_of(examined(made.text).design) == meaning
    again = formatted(SourceText("pad.keys", made.text))
    assert again.text == made.text


@pytest.mark.parametrize("seed", REVISIONS)
def test_a_revision_is_told_as_what_it_does_to_the_image(seed):
    """Cosmetic: the same tables. A reflash: others. Solder: others only where it says so too."""
    old = draft(seed, sound=True)
    new = old.revised(REVISED[seed % len(REVISED)], -1 - seed)
    sides = examined(old.text), examined(new.text)
    found = compare_texts(old.text, new.text)
    facts = [facts_of(side.design) for side in sides]
    assert applied(found.edits, facts[0]) == facts[1]
    if not all(side.mounted for side in sides):
        return
    needs_image = any(change.needs_image for change in found.changes)
    is_other = tables_of(old.text) != tables_of(new.text)
    told = [(one.kind, one.slug) for one in found.changes]
    if found.kind == "solder":
        assert needs_image or not is_other, told
    else:
        assert needs_image == is_other, told


@pytest.mark.parametrize("seed", REVISIONS)
def test_facts_and_a_comparison_say_the_same_of_a_revision(seed):
    old = draft(seed, sound=seed % 2 == 0)
    new = old.revised(REVISED[seed % len(REVISED)], -1 - seed)
    found = compare_texts(old.text, new.text)
    if found.edits.renames == type(found.edits.renames)(keys={}, lines={}, layers={}, actions={}):
        kind = found.kind if found.kind != "none" else "cosmetic"
        assert most_work(old.text, new.text) == kind, found.headline


@pytest.mark.parametrize("seed", REVISIONS)
def test_revisions_of_different_parts_merge_without_a_conflict(seed):
    base = draft(seed, sound=seed % 2 == 0)
    one, other = Random(seed).sample(REVISED, 2)
    ours, theirs = base.revised(one, -1 - seed), base.revised(other, -1 - seed)
    both = ours.revised(other, -1 - seed)
    merged = merge(base.text, ours.text, theirs.text)
    assert merged is not None
    if not merged.conflicts:
        assert meaning_of(examined(merged.text).design) == meaning_of(examined(both.text).design)
