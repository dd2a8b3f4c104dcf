"""Built: what is to be reflashed has another image, and what is cosmetic has the same one."""

from __future__ import annotations

from itertools import islice
from random import Random

import pytest

from matrixgen.jobs.build import build_mounted
from matrixgen.jobs.compare import compared
from tests.amounts import amount
from tests.compare.pads import Pad, random_pad
from tests.compare.scripts import EDITS, Script, Touched
from tests.compare.test_scripts import examined

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


def edited(edit, seed: int) -> tuple[Pad, Script] | None:
    chance = Random(seed)
    pad = random_pad(chance)
    script = Script(pad, chance)
    try:
        edit(script)
    except Touched:
        return None
    both = all(examined(one.text).is_finished for one in (pad, script.pad))
    return (pad, script) if both else None


@pytest.mark.few(11)
@pytest.mark.parametrize("edit", EDITS, ids=lambda edit: edit.__name__)
def test_an_image_differs_where_it_has_to_be_loaded_anew_and_only_there(edit):
    pads = (one for seed in range(60) if (one := edited(edit, seed)))
    done = list(islice(pads, SEEDS))
    assert bool(done) == (edit.__name__ not in NEVER_BUILT)
    for pad, script in done:
        found = compared(examined(pad.text), examined(script.pad.text))
        needs_image = any(change.needs_image for change in found.changes)
        is_other = image(pad) != image(script.pad)
        if found.kind == "solder":
            assert needs_image or not is_other, found.headline
        else:
            assert is_other == needs_image, found.headline
