"""The keys that are pressed by pressing a knob: their switches are in the knobs."""

from __future__ import annotations

from collections.abc import Mapping
from math import dist

from matrixgen.model.component import ComponentPlace
from matrixgen.model.geometry import centre_of
from matrixgen.model.plate import Plate

SAME_PLACE = 0.01
"""In key units: so near, two middles are one."""


def knob_keys(plate: Plate) -> Mapping[str, ComponentPlace]:
    """Return the knobs of a plate that can be pressed, by the keys whose middle is theirs."""
    knobs = [one for one in plate.components if one.kind == "knob"]
    return {
        key.name.text: knob
        for key in (plate.keys if knobs else ())
        for knob in knobs
        if dist(centre_of(key), (knob.x, knob.y)) < SAME_PLACE
    }
