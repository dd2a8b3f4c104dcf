"""DXF, R12 to now, read by the package ezdxf: the shown entities of the model space, as traces."""

from __future__ import annotations

import importlib.util
import io
import logging
import re
import warnings
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from matrixgen.drawing.traces import FARTHEST, MOST_SHAPES, Collected, Drawing, DrawnUnit
from matrixgen.model.geometry import Point
from matrixgen.reading import Refused

if TYPE_CHECKING:
    from ezdxf.document import Drawing as DxfDocument
    from ezdxf.entities.dxfentity import DXFEntity

DEEPEST = 16
"""Blocks within blocks; a block that holds itself ends there."""

CURVE_ERROR = 0.005
"""How far the points of a curve may leave it, in millimetres."""

_UNITS = {
    1: DrawnUnit("inches", 25.4),
    2: DrawnUnit("feet", 304.8),
    4: DrawnUnit("millimetres", 1.0),
    5: DrawnUnit("centimetres", 10.0),
    6: DrawnUnit("metres", 1000.0),
    8: DrawnUnit("microinches", 25.4e-6),
    9: DrawnUnit("thousandths of an inch", 0.0254),
    13: DrawnUnit("micrometres", 0.001),
    14: DrawnUnit("decimetres", 100.0),
}
"""What $INSUNITS means (DXF reference; ezdxf's `units` has the same numbers)."""

_LINES = {"LINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE", "LWPOLYLINE", "POLYLINE"}
_WITHOUT_SHAPE = {"ATTDEF", "VIEWPORT"}
_DAMAGED = "it is not a DXF drawing, or it is damaged"
_HOW = "open it in the program that drew it, and save it as DXF again, such as R2010"
_START = re.compile(r"\s*(?:999[ \t\r]*\n[^\n]*\n[ \t]*)*0[ \t\r]*\n[ \t]*SECTION")
"""What a DXF begins with, after comments."""

_ENTRY = re.compile(r"^[ \t]*0[ \t]*\r?\n[ \t]*[A-Z]", re.MULTILINE)
"""What each entity of a DXF begins with: the code 0, and its name on the next line."""


def drawing_of_dxf(data: bytes) -> Drawing:
    """Return the drawing of a DXF file; raises `Refused`."""
    if importlib.util.find_spec("ezdxf") is None:
        how = 'install it with: pip install "matrixgen[plate]"'
        raise Refused("reading DXF needs the package ezdxf, which is not installed", how)
    try:
        with warnings.catch_warnings(action="ignore"):  # as of numbers that overflow
            return _drawing(_document(data))
    except (Refused, MemoryError):
        raise
    except Exception as error:  # ezdxf raises whatever a broken entity leads it to
        raise Refused(_DAMAGED, _HOW) from error


def _document(data: bytes) -> DxfDocument:
    from ezdxf.filemanagement import dxf_stream_info, read

    logger = logging.getLogger("ezdxf")
    if not logger.handlers:  # what it repairs by itself is not for the maker
        logger.addHandler(logging.NullHandler())
    rough = data.decode("latin-1")
    if not _START.match(rough):
        raise Refused(_DAMAGED, _HOW)
    if not rough.rstrip().endswith("EOF"):
        raise Refused("it ends too early", _HOW)
    _check_number(rough)
    encoding = dxf_stream_info(io.StringIO(rough)).encoding
    text = data.decode(encoding, "surrogateescape").replace("\r\n", "\n")
    return read(io.StringIO(text))


def _check_number(rough: str) -> None:
    """Refuse a file of more entries than shapes are read: to load them takes long."""
    if sum(1 for _ in _ENTRY.finditer(rough)) > MOST_SHAPES:
        help = "save only the layer of the switches, and try again"
        raise Refused(f"it has more than {MOST_SHAPES:,} shapes", help)


def _drawing(document: DxfDocument) -> Drawing:
    units, stated = _units(document)
    reader = _DxfReader(document, CURVE_ERROR / max(unit.mm for unit in units))
    for entity in document.modelspace():
        reader.read(entity, 0, "0")
    return reader.found.drawing(units, stated=stated, grows_up=True)


def _units(document: DxfDocument) -> tuple[tuple[DrawnUnit, ...], bool]:
    """Return the units that a drawing may be in, and whether the first is stated in it."""
    own = _UNITS.get(document.header.get("$INSUNITS", 0))
    likely = (_UNITS[4], _UNITS[1])
    return tuple(dict.fromkeys((own, *likely) if own else likely)), own is not None


class _DxfReader:
    """Reads one entity after the other."""

    def __init__(self, document: DxfDocument, error: float) -> None:
        self._error = error
        self._hidden = {
            layer.dxf.name.lower()
            for layer in document.layers
            if layer.is_off() or layer.is_frozen()
        }
        self.found = Collected()

    def read(self, entity: DXFEntity, depth: int, around: str) -> None:
        """Read an entity, and what a block has; on layer 0 it has that of its block `around`."""
        self.found.count_shape()
        kind = entity.dxftype()
        layer = str(entity.dxf.get("layer", "0"))
        layer = around if layer == "0" else layer
        if layer.lower() in self._hidden or entity.dxf.get("invisible", 0):
            self.found.hidden += 1
        elif kind == "INSERT":
            self._read_block(entity, depth, layer)
        elif kind in _LINES:
            self._read_lines(entity, layer)
        elif kind not in _WITHOUT_SHAPE:
            self.found.add_mark(_name_of(kind), _place_of(entity), layer)

    def _read_block(self, block: Any, depth: int, layer: str) -> None:
        if depth == DEEPEST:
            self.found.add_mark("block within too many others", _place_of(block), layer)
            return
        if block.block() is None:
            self.found.add_mark("block that is not in the file", _place_of(block), layer)
            return
        inserts = block.multi_insert() if block.mcount > 1 else (block,)
        for one in inserts:
            self.found.count_shape()  # of an empty block too: it may be repeated without end
            for entity in one.virtual_entities():
                self.read(entity, depth + 1, layer)

    def _read_lines(self, entity: Any, layer: str) -> None:
        from ezdxf.path import make_path

        path = make_path(entity)
        for part in path.sub_paths() if path.has_sub_paths else (path,):
            if len(part):
                self.found.add_trace(list(self._points(part)), layer)

    def _points(self, path: Any) -> Iterator[Point]:
        """Yield a path's points: a curve's are fewer the larger it is, so their number is bound."""
        corners = [(point.x, point.y) for point in path.control_vertices()]
        far = max(abs(one) for corner in corners for one in corner)
        if not path.has_curves or not far <= FARTHEST:  # which is not kept either
            yield from corners
            return
        (x, y), size = corners[0], 0.0
        for corner in corners:
            size = max(size, abs(corner[0] - x), abs(corner[1] - y))
        error = max(self._error, size / 50000)
        yield from ((point.x, point.y) for point in path.flattening(error, segments=8))


def _name_of(kind: str) -> str:
    return "text" if kind in ("TEXT", "MTEXT", "ATTRIB") else f"entity {kind}"


def _place_of(entity: DXFEntity) -> Point:
    """Return where an entity is, as far as it says so in a usual field."""
    for field in ("insert", "location", "center", "defpoint", "vtx0", "start"):
        if entity.dxf.hasattr(field):
            place = entity.dxf.get(field)
            return float(place[0]), float(place[1])
    return 0.0, 0.0
