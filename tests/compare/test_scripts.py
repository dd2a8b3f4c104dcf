"""Random edit scripts: the comparison tells of those edits and of no others, and can be applied."""

from __future__ import annotations

from collections import Counter
from itertools import islice
from random import Random

import pytest

from matrixgen.compare import Change
from matrixgen.compare.facts import facts_of
from tests.amounts import amount
from tests.compare.applied import applied
from tests.compare.pads import random_pad
from tests.compare.scripts import EDITS, UNBUILT, Told, edited_alone, scripted
from tests.compare.truth import compare_texts
from tests.texts import examined

SCRIPTS = amount("MATRIXGEN_SCRIPTS", suite=40, long=20_000)
IN_ONE = 100
ALONE = amount("MATRIXGEN_ALONE", suite=2, long=300)
"""Pads that each kind of edit is tried on."""

NEW_NAME = ("wire-renamed", "layer-renamed", "action-renamed", "layer-added", "action-added")


def told(change: Change) -> list[Told]:
    """What a change tells of, in the words of the scripts."""
    slug = change.slug
    if slug in ("keys-moved", "diodes-changed"):
        return [(slug, key) for key in change.keys]
    if slug in ("key-renamed", "key-resized", "key-added", "key-removed", "key-rewired"):
        return [(slug, change.keys[0])]
    if slug == "key-on-layer":
        return [(slug, f"{change.layer} {change.keys[0]}")]
    if slug in NEW_NAME or slug == "diode-part":
        return [(slug, change.new or "")]
    if slug.startswith(("hole-", "area-")):
        return [(slug, change.old or change.new or "")]
    quoted = change.text.split("`")[1:2]
    if slug in ("pin-moved", "wire-coloured", "visits-ordered", "action-edited"):
        return [(slug, quoted[0])]
    if slug == "wires-ordered":
        return [(slug, change.text.split()[1][:-1])]
    return [(slug, "")]


@pytest.mark.parametrize("start", range(0, SCRIPTS, IN_ONE))
def test_a_script_s_edits_are_told_and_no_others_and_applied_they_make_the_new_file(start):
    for seed in range(start, start + IN_ONE):
        chance = Random(seed)
        pad = random_pad(chance)
        script = scripted(pad, chance.randint(0, 6), chance)
        found = compare_texts(pad.text, script.pad.text)
        old, new = (facts_of(examined(one.text).design) for one in (pad, script.pad))
        assert applied(found.edits, old) == new, seed
        said = Counter(one for change in found.changes for one in told(change))
        assert said == Counter(script.told), (seed, found.headline)


@pytest.mark.parametrize("edit", (*EDITS, *UNBUILT), ids=lambda edit: edit.__name__)
def test_each_kind_of_edit_is_told_alone(edit):
    alone = list(islice(edited_alone(edit, range(20 * ALONE)), ALONE))
    assert alone
    for pad, script in alone:
        found = compare_texts(pad.text, script.pad.text)
        said = Counter(one for change in found.changes for one in told(change))
        assert said == Counter(script.told), (pad.text, found.headline)
