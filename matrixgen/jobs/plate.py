"""From a file that reads to its plate, drawn to be cut or modelled to be printed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from importlib.util import find_spec

from matrixgen.emit.plate_drawing.svg import plate_svg
from matrixgen.model import Keyboard
from matrixgen.model.prose import counted
from matrixgen.plate.shape import PlateShape, plate_shape
from matrixgen.record import Record

PRINTED_MM = 5.0
"""How thick a printed plate is: 1.5 mm of plastic alone bends (common practice, no source)."""

NEEDED = {".dxf": "ezdxf", ".stl": "manifold3d", ".3mf": "manifold3d"}
"""The package that writes a kind of file; SVG needs none."""


class PlateOptions(Record, kw_only=True):
    """What belongs to who cuts the plate: the width of the cut in millimetres, an old DXF."""

    kerf: float = 0.0
    is_r12: bool = False
    thickness: float = PRINTED_MM


def missing_package(kind: str) -> str | None:
    """Return the package that a kind of file needs and that is not installed, if any."""
    name = NEEDED.get(kind)
    return name if name and find_spec(name) is None else None


def plate_file(keyboard: Keyboard, kind: str, options: PlateOptions) -> bytes:
    """Return the plate as a file of a kind: `.dxf`, `.svg`, `.stl` or `.3mf`."""
    return WRITERS[kind](keyboard, plate_shape(keyboard.plate, options.kerf), options)


def notes_of(keyboard: Keyboard, options: PlateOptions) -> tuple[str, ...]:
    """Return what stands in the head of each file."""
    kerf = f"drawn for a cut of {options.kerf:g} mm" if options.kerf else "nominal, without kerf"
    return (
        "made by matrixgen",
        f"{keyboard.identity.product or 'a plate'}: millimetres, seen from the front, {kerf}",
        "Cut or print a test piece first (--test-piece), and try it with your own switches.",
    )


def summary_of(keyboard: Keyboard) -> str:
    """Return the size of the plate, and how many things of each kind go through it."""
    shape = plate_shape(keyboard.plate)
    left, top, right, bottom = shape.bounds
    many = Counter(one.kind for one in shape.openings)
    parts = [counted(many["switch"], "switch", "switches")]
    if many["stabiliser"]:
        parts.append(counted(many["stabiliser"] // 2, "stabiliser"))
    if many["hole"]:
        parts.append(counted(many["hole"], "screw hole"))
    return f"{right - left:.1f} by {bottom - top:.1f} mm, {', '.join(parts)}"


def _dxf(keyboard: Keyboard, shape: PlateShape, options: PlateOptions) -> bytes:
    from matrixgen.emit.plate_drawing.dxf import plate_dxf

    return plate_dxf(shape, "R12" if options.is_r12 else "R2010", notes_of(keyboard, options))


def _svg(keyboard: Keyboard, shape: PlateShape, options: PlateOptions) -> bytes:
    return plate_svg(shape, notes_of(keyboard, options)[1:])


def _stl(keyboard: Keyboard, shape: PlateShape, options: PlateOptions) -> bytes:
    from matrixgen.emit.plate_drawing.solid import plate_solid
    from matrixgen.emit.plate_drawing.solid_files import solid_stl

    return solid_stl([plate_solid(shape, options.thickness)], keyboard.identity.product or "")


def _3mf(keyboard: Keyboard, shape: PlateShape, options: PlateOptions) -> bytes:
    from matrixgen.emit.plate_drawing.solid import plate_solid
    from matrixgen.emit.plate_drawing.solid_files import solid_3mf

    solids = [plate_solid(shape, options.thickness)]
    return solid_3mf(solids, keyboard.identity.product or "", notes_of(keyboard, options))


WRITERS: Mapping[str, Callable[[Keyboard, PlateShape, PlateOptions], bytes]] = {
    ".dxf": _dxf,
    ".svg": _svg,
    ".stl": _stl,
    ".3mf": _3mf,
}
