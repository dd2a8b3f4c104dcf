"""Affine maps of the plane, as SVG writes them: `matrix(a b c d e f)` and its short forms."""

from __future__ import annotations

import re
from functools import lru_cache
from math import cos, radians, sin, tan

from matrixgen.model.geometry import Point
from matrixgen.reading import Refused

Affine = tuple[float, float, float, float, float, float]
"""x' = a x + c y + e, y' = b x + d y + f (SVG 1.1, section 7.5, from memory)."""

SAME: Affine = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)

LONGEST = 1000
"""Characters of a transform: one is read for each copy of its element."""

_CALL = re.compile(r"[\s,]*(\w+)\s*\(([^()]*)\)")
_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")


def moved(point: Point, by: Affine) -> Point:
    """Return where a map takes a point."""
    a, b, c, d, e, f = by
    return a * point[0] + c * point[1] + e, b * point[0] + d * point[1] + f


def within(outer: Affine, inner: Affine) -> Affine:
    """Return the map that does `inner` first, and `outer` then."""
    a, b, c, d = outer[:4]
    return (
        a * inner[0] + c * inner[1],
        b * inner[0] + d * inner[1],
        a * inner[2] + c * inner[3],
        b * inner[2] + d * inner[3],
        *moved((inner[4], inner[5]), outer),
    )


@lru_cache(maxsize=1000)
def affine_of(text: str) -> Affine:
    """Return the map that an attribute `transform` describes; raises `Refused`."""
    text = text.strip()
    if len(text) > LONGEST:
        raise _unknown(text)
    result, at = SAME, 0
    while text[at:].strip(" \t\r\n,"):
        call = _CALL.match(text, at)
        if not call:
            raise _unknown(text)
        result = within(result, _one(call[1], call[2], text))
        at = call.end()
    return result


def _one(name: str, inside: str, text: str) -> Affine:
    if _NUMBER.sub("", inside).strip(" \t\r\n,"):
        raise _unknown(text)
    numbers = [float(number) for number in _NUMBER.findall(inside)]
    match name, numbers:
        case "matrix", [a, b, c, d, e, f]:
            return a, b, c, d, e, f
        case "translate", [x, *rest] if len(rest) < 2:
            return 1.0, 0.0, 0.0, 1.0, x, rest[0] if rest else 0.0
        case "scale", [x, *rest] if len(rest) < 2:
            return x, 0.0, 0.0, rest[0] if rest else x, 0.0, 0.0
        case "rotate", [degrees]:
            return _turn(degrees)
        case "rotate", [degrees, x, y]:
            there, back = (1.0, 0.0, 0.0, 1.0, x, y), (1.0, 0.0, 0.0, 1.0, -x, -y)
            return within(within(there, _turn(degrees)), back)
        case "skewX", [degrees]:
            return 1.0, 0.0, tan(radians(degrees)), 1.0, 0.0, 0.0
        case "skewY", [degrees]:
            return 1.0, tan(radians(degrees)), 0.0, 1.0, 0.0, 0.0
    raise _unknown(text)


def _turn(degrees: float) -> Affine:
    cosine, sine = cos(radians(degrees)), sin(radians(degrees))
    return cosine, sine, -sine, cosine, 0.0, 0.0


def _unknown(text: str) -> Refused:
    return Refused(f"its transform `{text[:40]}` cannot be read")
