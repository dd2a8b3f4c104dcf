"""One switch from behind, large: which way it is turned, and what is soldered to which leg."""

from __future__ import annotations

from matrixgen.emit.sheet.frame import mirrored, polyline
from matrixgen.model import Axis, other_axis
from matrixgen.model.geometry import Point
from matrixgen.model.plate import CutOutSize
from matrixgen.model.switch import FAR_LEG, NEAR_LEG, corners_mm
from matrixgen.record import Record
from matrixgen.routing.places import DIODE_END


class Guide(Record, kw_only=True):
    """A switch, not turned, seen from behind; millimetres from its middle.

    `far_word` and `near_word` say what goes to its legs; `diode_end` is where a diode ends, None
    where there are no diodes.
    """

    body: str
    far: Point
    near: Point
    diode_end: Point | None
    far_word: str
    near_word: str


def guide_of(cut_out: CutOutSize, diode_axis: Axis, *, has_diodes: bool) -> Guide:
    """Return the drawing for a plate whose diodes, if any, are joined to the wires of an axis."""
    far, near, end = mirrored((FAR_LEG, NEAR_LEG, DIODE_END))
    return Guide(
        body=polyline(mirrored(corners_mm(cut_out))),
        far=far,
        near=near,
        diode_end=end if has_diodes else None,
        far_word=f"diode, then the {diode_axis} wire" if has_diodes else f"{diode_axis} wire",
        near_word=f"{other_axis(diode_axis)} wire",
    )


def steps_of(diode_axis: Axis, *, has_diodes: bool) -> tuple[str, ...]:
    """Return the order of the work at the bench (common practice, no source)."""
    other = other_axis(diode_axis)
    turned = (
        "Put in all switches, turned so that both legs lie in the upper half of each key; a "
        "cluster is turned as a whole. Turned the other way round a switch works too, but its legs "
        "are then not where the picture has them."
    )
    diodes = (
        "Bend and solder the diodes: one end to the far leg, bands as drawn.",
        f"Join the diodes' free leads to {diode_axis}s. These joints hang in the air: bend one "
        "lead round the next one before you solder, and let it touch no leg.",
    )
    wires = (
        f"Then the {other} wires, insulated: they cross bare leads. Strip them at the joints "
        "alone, or use short pieces from leg to leg.",
        "Last the wires to the controller. Measure as told below before you plug it in.",
    )
    first = f"Solder the {diode_axis} wires to the far legs, insulated between them."
    return (turned, *(diodes if has_diodes else (first,)), *wires)
