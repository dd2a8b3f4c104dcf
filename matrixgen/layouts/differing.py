"""Which signs a layout types in another way on another system."""

from __future__ import annotations

from matrixgen.layouts.files import document_of
from matrixgen.layouts.host_layout import HostLayout, Way
from matrixgen.layouts.strokes import SYSTEMS, System, level_of
from matrixgen.record import Record


class SignOnSystems(Record):
    """A sign, and the way to it on each system; None where it has none, or none that is known."""

    sign: str
    ways: dict[System, Way | None]


def differing_signs(name: str) -> tuple[SignOnSystems, ...]:
    """Return the signs that a layout that there is types in several ways, by their code points.

    Option on macOS counts as AltGr. Empty where only X11's data are known.
    """
    document = document_of(name)
    if document["elsewhere"] is None:
        return ()
    on = {system: HostLayout(document, system) for system in SYSTEMS}
    found = []
    for sign in sorted(document["elsewhere"]["windows"]):
        ways = {system: on[system].way(sign) for system in SYSTEMS}
        if len({_by_levels(way, system) for system, way in ways.items()}) > 1:
            found.append(SignOnSystems(sign, ways))
    return tuple(found)


def _by_levels(way: Way | None, system: System) -> tuple[tuple[int, int | None], ...] | None:
    if way is None:
        return None
    return tuple((stroke.usage, level_of(stroke.modifiers, system)) for stroke in way)
