"""What the bundles of a picture are called: by their wires, or by a number and a list below."""

from __future__ import annotations

from itertools import count

from matrixgen.emit.sheet.font import width_of
from matrixgen.emit.sheet.labels import SIZE_MM
from matrixgen.model.geometry import Point
from matrixgen.record import Record
from matrixgen.routing import Back

MOST_NAMED = 20
"""How many bundles have their wires named: the longest ones."""

WIDEST_MM = 60.0
"""How wide a label with the names of a bundle's wires may be: half a hand's keys (a choice)."""


class NamedBundle(Record):
    """A bundle's label, where it points to, and its wires if the label does not name them."""

    label: str
    middle: Point
    wires: tuple[str, ...]


def named_bundles(back: Back) -> tuple[NamedBundle, ...]:
    """Return the longest bundles with what they are called; none where wires were laid in haste."""
    if any(hop.is_in_haste for run in back.runs for hop in run.hops):
        return ()
    names, number = [run.line.name.text for run in back.runs], count(1)
    found = []
    for one in sorted(back.bundles, key=lambda one: -one.length_mm)[:MOST_NAMED]:
        wires = tuple(names[wire] for wire in one.wires)
        label = " + ".join(wires)
        if width_of(label, SIZE_MM) <= WIDEST_MM:
            found.append(NamedBundle(label, one.middle, ()))
        else:
            found.append(NamedBundle(f"bundle {next(number)}", one.middle, wires))
    return tuple(found)
