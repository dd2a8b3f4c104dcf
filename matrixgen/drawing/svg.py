"""SVG to a drawing: what is shown of it, through all its groups, transforms and copies."""

from __future__ import annotations

from math import cos, pi, sin

from matrixgen.drawing.affine import SAME, Affine, affine_of, moved, within
from matrixgen.drawing.svg_path import BadPath, runs_of
from matrixgen.drawing.svg_units import GUESSED, PX_MM, has_size, length, numbers_of, view_of
from matrixgen.drawing.svg_xml import Element, elements_of
from matrixgen.drawing.traces import Collected, Drawing, DrawnUnit
from matrixgen.model.geometry import Point
from matrixgen.reading import Refused

DEEPEST = 16
"""Copies (`use`) of copies; one that holds itself ends there."""

ROUND_STEPS = 64
"""Points of a circle."""

LEAST_TEXT = 16
"""Characters that are counted as a point, whatever they are."""

_GROUPS = {"svg", "g", "a", "switch"}
_SHAPES = {"path", "rect", "circle", "ellipse", "line", "polyline", "polygon"}
_MARKS = {"text": "text", "image": "picture", "foreignObject": "foreign object"}


def drawing_of_svg(data: bytes) -> Drawing:
    """Return the drawing of an SVG file; raises `Refused`."""
    root = elements_of(data)
    if root.name != "svg":
        raise Refused(f"it is XML, but not SVG: it begins with `{root.name[:40]}`")
    reader = _SvgReader(root)
    reader.read(root, SAME, "", 0)
    if has_size(root.attributes):
        return reader.found.drawing((DrawnUnit("its own", PX_MM),), stated=True, grows_up=False)
    return reader.found.drawing(GUESSED, stated=False, grows_up=False)


class _SvgReader:
    """Reads one element after the other."""

    def __init__(self, root: Element) -> None:
        self._root = root
        self._named = {
            element.attributes["id"]: element
            for element in root.every()
            if "id" in element.attributes
        }
        self.found = Collected()

    def read(self, element: Element, outer: Affine, layer: str, copies: int) -> None:
        """Read an element and what is below it; `copies` counts the `use`s around it."""
        self.found.count_shape()
        if element.name not in _GROUPS | _SHAPES | {"use", "symbol", *_MARKS}:
            return
        if _is_hidden(element):
            self.found.hidden += 1
            return
        to_plate = within(outer, affine_of(element.attributes.get("transform", "")))
        if element.name in _GROUPS or (element.name == "symbol" and copies):
            self._read_group(element, to_plate, layer, copies)
        elif element.name == "use":
            self._read_copy(element, to_plate, layer, copies)
        elif element.name in _MARKS:
            self._mark(_MARKS[element.name], element, to_plate, layer)
        elif element.name != "symbol":
            self._read_shape(element, to_plate, layer)

    def _read_group(self, group: Element, to_plate: Affine, layer: str, copies: int) -> None:
        if group.name == "svg":
            if group is not self._root:
                to_plate = within(to_plate, _shift(group))
            to_plate = within(to_plate, view_of(group.attributes))
        layer = group.attributes.get("label") or group.attributes.get("id") or layer
        for child in group.children:
            self.read(child, to_plate, layer, copies)

    def _read_copy(self, use: Element, to_plate: Affine, layer: str, copies: int) -> None:
        original = self._named.get(use.attributes.get("href", "").removeprefix("#"))
        if original is None:
            self._mark("copy of nothing", use, to_plate, layer)
        elif copies == DEEPEST:
            self._mark("copy of too many copies", use, to_plate, layer)
        else:
            self.read(original, within(to_plate, _shift(use)), layer, copies + 1)

    def _read_shape(self, element: Element, to_plate: Affine, layer: str) -> None:
        for name in ("d", "points"):  # which are read for each copy of the element
            self.found.count_points(len(element.attributes.get(name, "")) // LEAST_TEXT)
        try:
            runs = _runs(element)
        except BadPath:
            self._mark(f"damaged `{element.name}`", element, to_plate, layer)
            return
        for run in runs:
            self.found.add_trace([moved(point, to_plate) for point in run], layer)

    def _mark(self, kind: str, element: Element, to_plate: Affine, layer: str) -> None:
        at = (_number(element, "x"), _number(element, "y"))
        self.found.add_mark(kind, moved(at, to_plate), layer)


def _runs(element: Element) -> list[list[Point]]:
    """Return the points of a shape, in its own frame; raises `BadPath`."""
    match element.name:
        case "path":
            return runs_of(element.attributes.get("d", ""))
        case "rect":
            return [_rectangle(element)]
        case "circle" | "ellipse":
            return [_ellipse(element)]
        case "line":
            ends = [_need(element, name, 0.0) for name in ("x1", "y1", "x2", "y2")]
            return [[(ends[0], ends[1]), (ends[2], ends[3])]]
    numbers = numbers_of(element.attributes.get("points", ""))
    if len(numbers) < 4 or len(numbers) % 2:
        raise BadPath(element.name)
    points = list(zip(numbers[::2], numbers[1::2], strict=True))
    return [[*points, points[0]] if element.name == "polygon" else points]


def _rectangle(element: Element) -> list[Point]:
    x, y = _need(element, "x", 0.0), _need(element, "y", 0.0)
    width, height = _need(element, "width"), _need(element, "height")
    if width <= 0 or height <= 0:
        raise BadPath("rect")
    rx, ry = length(element.attributes.get("rx")), length(element.attributes.get("ry"))
    rx, ry = (ry if rx is None else rx) or 0.0, (rx if ry is None else ry) or 0.0
    rx, ry = min(abs(rx), width / 2), min(abs(ry), height / 2)
    found = []
    for number, (middle_x, middle_y) in enumerate(
        (
            (x + width - rx, y + height - ry),
            (x + rx, y + height - ry),
            (x + rx, y + ry),
            (x + width - rx, y + ry),
        )
    ):
        for step in range(ROUND_STEPS // 4 + 1 if rx and ry else 1):
            angle = pi / 2 * (number + step / (ROUND_STEPS // 4))
            found.append((middle_x + rx * cos(angle), middle_y + ry * sin(angle)))
    return [*found, found[0]]


def _ellipse(element: Element) -> list[Point]:
    x, y = _need(element, "cx", 0.0), _need(element, "cy", 0.0)
    names = ("r", "r") if element.name == "circle" else ("rx", "ry")
    rx, ry = (_need(element, name) for name in names)
    if rx <= 0 or ry <= 0:
        raise BadPath(element.name)
    angles = [2 * pi * step / ROUND_STEPS for step in range(ROUND_STEPS)]
    found = [(x + rx * cos(angle), y + ry * sin(angle)) for angle in angles]
    return [*found, found[0]]


def _need(element: Element, name: str, otherwise: float | None = None) -> float:
    """Return an attribute that is a length; raises `BadPath` where it is not."""
    text = element.attributes.get(name)
    value = otherwise if text is None else length(text)
    if value is None:
        raise BadPath(name)
    return value


def _number(element: Element, name: str) -> float:
    return length(element.attributes.get(name, "").split(" ")[0]) or 0.0


def _shift(element: Element) -> Affine:
    return 1.0, 0.0, 0.0, 1.0, _number(element, "x"), _number(element, "y")


def _is_hidden(element: Element) -> bool:
    style = element.attributes.get("style", "").replace(" ", "").lower()
    values = {element.attributes.get("display"), element.attributes.get("visibility")}
    return bool(values & {"none", "hidden"}) or "display:none" in style
