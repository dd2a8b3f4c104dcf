"""Built: what is to be reflashed has another image, and what is cosmetic has the same one."""

from __future__ import annotations

from itertools import islice

import pytest

from matrixgen.jobs.build import build_mounted
from tests.amounts import amount
from tests.compare.pads import Pad
from tests.compare.scripts import EDITS, edited_alone
from tests.compare.truth import compare_texts
from tests.texts import examined

SEEDS = amount("MATRIXGEN_PADS", suite=1, long=10)
"""Pads that each kind of edit is made on: every one takes two builds."""


NEVER_BUILT = {"turn_diode"}
"""Edits of which there is no image: a key whose diode points against the scan is an error."""


def image(pad: Pad) -> bytes:
    found = examined(pad.text)
    (mounted,) = found.mounted
    built = build_mounted(mounted, found.design.source, "pad", None, with_sheet=False)
    assert "pad.hex" in built.files, built.findings
    return built.files["pad.hex"]


@pytest.mark.few(7)
@pytest.mark.parametrize("edit", EDITS, ids=lambda edit: edit.__name__)
def test_an_image_differs_where_it_has_to_be_loaded_anew_and_only_there(edit):
    pads = edited_alone(edit, range(60))
    can_be_built = (
        one for one in pads if all(examined(pad.text).is_finished for pad in (one[0], one[1].pad))
    )
    done = list(islice(can_be_built, SEEDS))
    assert bool(done) == (edit.__name__ not in NEVER_BUILT)
    for pad, script in done:
        found = compare_texts(pad.text, script.pad.text)
        needs_image = any(change.needs_image for change in found.changes)
        is_other = image(pad) != image(script.pad)
        if found.kind == "solder":
            assert needs_image or not is_other, found.headline
        else:
            assert is_other == needs_image, found.headline
