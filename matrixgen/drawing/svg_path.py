"""The `d` of an SVG path to points (SVG 1.1, section 8.3 and appendix F.6, from memory)."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from math import atan2, ceil, cos, hypot, pi, radians, sin, sqrt

from matrixgen.model.geometry import Point

CURVE_STEPS = 48
"""Points of a Bézier curve: of a quarter of a circle one for each 2 degrees."""

ARC_STEP = pi / 180

_TOKEN = re.compile(
    r"[\s,]*(?:([MmZzLlHhVvCcSsQqTtAa])|([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?))"
)
_FLAG = re.compile(r"[\s,]*([01])")
_NUMBERS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7}


class BadPath(ValueError):
    """A path's data is damaged."""


def runs_of(data: str) -> list[list[Point]]:
    """Return each part of a path as points; a closed one ends where it begins, a move alone is one.

    Raises `BadPath` where the data is not that of a path.
    """
    pen = _Pen()
    for command, numbers in _commands(data):
        pen.do(command, numbers)
    return pen.runs


def _commands(data: str) -> Iterator[tuple[str, list[float]]]:
    """Yield each command with its numbers; a repeated one as often as it is meant."""
    at, command = 0, ""
    data = data.strip()
    while at < len(data):
        found = _TOKEN.match(data, at)
        if not found:
            raise BadPath(data[at : at + 20])
        if found[1]:
            command, at = found[1], found.end()
        if not command or (command.upper() == "Z" and not found[1]):
            raise BadPath(data[at : at + 20])
        numbers: list[float] = []
        for place in range(_NUMBERS.get(command.upper(), 0)):
            is_flag = command in "Aa" and place in (3, 4)  # flags may have nothing between them
            part = (_FLAG if is_flag else _TOKEN).match(data, at)
            if not part or not part[part.re.groups]:
                raise BadPath(data[at : at + 20])
            numbers.append(float(part[part.re.groups]))
            at = part.end()
        yield command, numbers
        command = {"M": "L", "m": "l"}.get(command, command)  # what follows a move is lines


class _Pen:
    """Draws a path's commands: where it is, where its part began, and its last control point."""

    def __init__(self) -> None:
        self.runs: list[list[Point]] = []
        self._at: Point = (0.0, 0.0)
        self._start: Point = (0.0, 0.0)
        self._control: Point | None = None
        self._before = ""

    def do(self, command: str, numbers: list[float]) -> None:
        """Draw one command."""
        kind = command.upper()
        if not self.runs and kind != "M":
            raise BadPath(command)
        from_x, from_y = self._at if command.islower() else (0.0, 0.0)
        if kind in "HV":
            x, y = (
                (numbers[0] + from_x, self._at[1])
                if kind == "H"
                else (self._at[0], numbers[0] + from_y)
            )
            self._draw([(x, y)])
        elif kind == "Z":
            self._draw([self._start])
        elif kind == "A":
            end = (numbers[5] + from_x, numbers[6] + from_y)
            self._draw(_arc(self._at, numbers[:5], end))
        else:
            pairs = zip(numbers[::2], numbers[1::2], strict=True)
            self._to([(x + from_x, y + from_y) for x, y in pairs], kind)
        self._before = kind

    def _to(self, points: list[Point], kind: str) -> None:
        if kind == "M":
            self._at = self._start = points[0]
            self.runs.append([points[0]])
        elif kind == "L":
            self._draw(points)
        else:
            if kind in "ST":
                points = [self._reflected("CS" if kind == "S" else "QT"), *points]
            self._control = points[-2]
            self._draw(_curve([self._at, *points]))

    def _reflected(self, kinds: str) -> Point:
        """Return the control point that carries on smoothly from the last curve."""
        if self._control is None or self._before not in kinds or not self._before:
            return self._at
        return 2 * self._at[0] - self._control[0], 2 * self._at[1] - self._control[1]

    def _draw(self, points: list[Point]) -> None:
        if self._before == "Z":
            self.runs.append([self._at])
        self.runs[-1] += points
        self._at = points[-1]


def _curve(controls: list[Point]) -> list[Point]:
    """Return points of a Bézier curve, without its first: de Casteljau's construction."""
    found = []
    for step in range(1, CURVE_STEPS):
        part, points = step / CURVE_STEPS, controls
        while len(points) > 1:
            points = [
                (a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part)
                for a, b in pairwise(points)
            ]
        found.append(points[0])
    return [*found, controls[-1]]


def _arc(start: Point, shape: list[float], end: Point) -> list[Point]:
    """Return points of an elliptical arc, without its first."""
    rx, ry, degrees, large, sweep = abs(shape[0]), abs(shape[1]), *shape[2:]
    if not rx or not ry or start == end:
        return [end]
    cosine, sine = cos(radians(degrees)), sin(radians(degrees))
    half_x, half_y = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    x, y = cosine * half_x + sine * half_y, cosine * half_y - sine * half_x
    grown = max(1.0, hypot(x / rx, y / ry))  # an ellipse that is too small to reach both ends
    rx, ry = rx * grown, ry * grown
    apart = (x / rx) ** 2 + (y / ry) ** 2
    factor = sqrt(max(0.0, 1 / apart - 1)) * (-1 if large == sweep else 1)
    middle = (factor * rx * y / ry, -factor * ry * x / rx)
    first = atan2((y - middle[1]) / ry, (x - middle[0]) / rx)
    last = atan2((-y - middle[1]) / ry, (-x - middle[0]) / rx)
    turn = (last - first) % (2 * pi) if sweep else -((first - last) % (2 * pi))
    steps = max(1, ceil(abs(turn) / ARC_STEP))
    centre = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    points = []
    for step in range(1, steps):
        angle = first + turn * step / steps
        along, across = middle[0] + rx * cos(angle), middle[1] + ry * sin(angle)
        points.append(
            (centre[0] + cosine * along - sine * across, centre[1] + sine * along + cosine * across)
        )
    return [*points, end]
