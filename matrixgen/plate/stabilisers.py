"""Which keys have a stabiliser, and how far its two housings are from the switch.

Distances by a key's width: 2, 2.25, 2.75 and 6.25 units as an open footprint library of an
electronics CAD suite prints them for board-mounted housings (KiCad, keyboard-switch footprints,
2026); 3, 4, 6, 6.5, 7 and 8 units by the usual rule, half a unit from each end of the key (common
practice, no source); 4.5, 5.5, 9 and 10 units from memory. A width between takes the rule.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from matrixgen.model import Key, Plate
from matrixgen.model.knob_keys import knob_keys
from matrixgen.model.switch import UNIT_MM
from matrixgen.record import Record

LEAST_UNITS = 2.0
"""From this width on, a key tilts without one (common practice, no source)."""

OFFSETS_MM = {4.5: 34.67, 5.5: 42.86, 6.25: 50.0}
"""Widths that keep to no rule: from the switch to each housing."""

SHORT_MM, LONG_MM = 11.9, 66.675
"""The one wire of all keys below 3 units, and the longest that there is: that of 8 units."""


class Stabiliser(Record):
    """A key's: from the switch to each of its two housings; upright where the key is taller."""

    key: Key
    offset_mm: float
    is_upright: bool


def stabilisers_of(keys: Iterable[Key], without: frozenset[str] = frozenset()) -> list[Stabiliser]:
    """Return the stabilisers of keys, in their order; those `without` one are named."""
    return list(_stabilisers(keys, without))


def stabilisers_on(plate: Plate) -> list[Stabiliser]:
    """Return those of a plate: not of keys that are said to have none, nor of those of knobs."""
    without = frozenset(knob_keys(plate)).union(word.text for word in plate.without_stabiliser)
    return stabilisers_of(plate.keys, without)


def _stabilisers(keys: Iterable[Key], without: frozenset[str]) -> Iterator[Stabiliser]:
    for key in keys:
        units = max(key.width, key.height)
        if units >= LEAST_UNITS and key.name.text not in without:
            yield Stabiliser(key, offset_mm(units), key.height > key.width)


def offset_mm(units: float) -> float:
    """Return how far each housing of a stabiliser is from the switch, by the key's length."""
    if units < 3:
        return SHORT_MM
    return OFFSETS_MM.get(units, min((units - 1) / 2 * UNIT_MM, LONG_MM))
