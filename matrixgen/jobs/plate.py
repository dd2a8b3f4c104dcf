"""From a file that reads to its plate, drawn to be cut or modelled to be printed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from importlib.util import find_spec
from typing import TYPE_CHECKING

from matrixgen.emit.plate_drawing.parts import LAP_MM, parts_of
from matrixgen.emit.plate_drawing.svg import plate_svg
from matrixgen.model import Keyboard
from matrixgen.model.prose import counted, listed
from matrixgen.plate.division import WHOLE, Division, Undivided, divided
from matrixgen.plate.seams import MOST_PARTS
from matrixgen.plate.shape import PlateShape, plate_shape
from matrixgen.record import Record, changed
from matrixgen.source import read_design

if TYPE_CHECKING:
    from manifold3d import Manifold

NEEDED = {".dxf": "ezdxf", ".stl": "manifold3d", ".3mf": "manifold3d"}
"""The package that writes a kind of file; SVG needs none."""


TEST_PIECE = "plate\n  line A B:2\n  outline margin 3 mm\n"
"""Two cut-outs of switches and a stabiliser: to be tried before a whole plate is made."""


class PlateOptions(Record, kw_only=True):
    """What belongs to who makes the plate, in millimetres.

    How wide the cut is, an old DXF, how thick a plate to print is if not as the file says, and
    where it is divided.
    """

    kerf: float = 0.0
    is_r12: bool = False
    thickness: float | None = None
    division: Division = WHOLE


def missing_package(kind: str) -> str | None:
    """Return the package that a kind of file needs and that is not installed, if any."""
    name = NEEDED.get(kind)
    return name if name and find_spec(name) is None else None


def test_piece(keyboard: Keyboard) -> Keyboard:
    """Return a keyboard with the plate of a test piece, whose cut-outs are the keyboard's."""
    design, _ = read_design("test piece", TEST_PIECE)
    assert design
    own = keyboard.plate
    piece = changed(design.keyboard.plate, cut_out=own.cut_out, thickness=own.thickness)
    return changed(keyboard, plate=piece)


def division_for(keyboard: Keyboard, bed: tuple[float, float]) -> Division | Undivided:
    """Return how a plate is divided so that each part has room on a printer's bed, or why not."""
    return divided(plate_shape(keyboard.plate), bed, LAP_MM)


def why_undivided(found: Undivided) -> str:
    """Return why a plate has no parts for a bed, in words."""
    if found.between is None:
        return f"it would be in more than {MOST_PARTS} parts"
    low, high = found.between
    edge = {"down": "left", "across": "upper"}[found.way]
    where = f"{low:.0f} to {high:.0f} mm from its {edge} edge"
    return f"no line goes {found.way} it between its openings, {where}"


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


def summary_of(keyboard: Keyboard, division: Division = WHOLE) -> str:
    """Return the size of the plate, how many things of each kind go through it, and its parts."""
    shape = plate_shape(keyboard.plate)
    left, top, right, bottom = shape.bounds
    many = Counter(one.kind for one in shape.openings)
    said = [counted(many["switch"], "switch", "switches")]
    if many["stabiliser"]:
        said.append(counted(many["stabiliser"] // 2, "stabiliser"))
    if many["hole"]:
        said.append(counted(many["hole"], "screw hole"))
    for kind in ("light", "knob"):
        said += [counted(many[kind], kind)] * bool(many[kind])
    if division != WHOLE:
        said.append(_parts(division.strips))
    return f"{right - left:.1f} by {bottom - top:.1f} mm, {', '.join(said)}"


def _parts(strips: tuple[int, ...]) -> str:
    """Return in how many parts a plate is, and how many of them each strip has."""
    said = f"in {counted(sum(strips), 'part')}"
    return f"{said}, in strips of {listed(map(str, strips))} from above" if strips[1:] else said


def _dxf(keyboard: Keyboard, shape: PlateShape, options: PlateOptions) -> bytes:
    from matrixgen.emit.plate_drawing.dxf import plate_dxf

    return plate_dxf(shape, "R12" if options.is_r12 else "R2010", notes_of(keyboard, options))


def _svg(keyboard: Keyboard, shape: PlateShape, options: PlateOptions) -> bytes:
    return plate_svg(shape, notes_of(keyboard, options)[1:])


def _stl(keyboard: Keyboard, shape: PlateShape, options: PlateOptions) -> bytes:
    from matrixgen.emit.plate_drawing.solid_files import solid_stl

    return solid_stl(_solids(keyboard, shape, options), keyboard.identity.product or "")


def _3mf(keyboard: Keyboard, shape: PlateShape, options: PlateOptions) -> bytes:
    from matrixgen.emit.plate_drawing.solid_files import solid_3mf

    title = keyboard.identity.product or ""
    return solid_3mf(_solids(keyboard, shape, options), title, notes_of(keyboard, options))


def _solids(keyboard: Keyboard, shape: PlateShape, options: PlateOptions) -> list[Manifold]:
    from matrixgen.emit.plate_drawing.solid import plate_solid

    thickness = options.thickness or keyboard.plate.thickness
    return parts_of(plate_solid(shape, thickness), options.division, thickness)


WRITERS: Mapping[str, Callable[[Keyboard, PlateShape, PlateOptions], bytes]] = {
    ".dxf": _dxf,
    ".svg": _svg,
    ".stl": _stl,
    ".3mf": _3mf,
}
