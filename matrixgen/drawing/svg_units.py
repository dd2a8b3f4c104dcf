"""Lengths of SVG, and what one unit of a drawing measures.

SVG 1.1, chapter 7, and CSS, where an inch has 96 px: both from memory.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from math import isfinite

from matrixgen.drawing.affine import SAME, Affine
from matrixgen.drawing.traces import DrawnUnit

PX_MM = 25.4 / 96

_MM = {
    "": PX_MM,
    "px": PX_MM,
    "mm": 1.0,
    "cm": 10.0,
    "in": 25.4,
    "pt": 25.4 / 72,
    "pc": 25.4 / 6,
    "q": 0.25,
}
_LENGTH = re.compile(r"([-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)\s*([a-z]*)", re.I)
_LONGEST = 64
"""Characters of a length: the pattern takes long for a damaged one without end."""

GUESSED = (
    DrawnUnit("pixels of 1/96 inch", PX_MM),
    DrawnUnit("millimetres", 1.0),
    DrawnUnit("points of 1/72 inch", 25.4 / 72),
    DrawnUnit("pixels of 1/90 inch", 25.4 / 90),
    DrawnUnit("inches", 25.4),
)
"""What a drawing without a size may be in: CSS says the first, programs wrote the others (from
memory)."""


def length(text: str | None) -> float | None:
    """Return a length in user units (px); None where it is none, or a percentage."""
    found = _matched(text or "")
    factor = _MM.get(found[2].lower()) if found else None
    if not found or factor is None:
        return None
    value = float(found[1]) * factor / PX_MM
    return value if isfinite(value) else None


def _matched(text: str) -> re.Match[str] | None:
    text = text.strip()
    return _LENGTH.fullmatch(text) if len(text) <= _LONGEST else None


def numbers_of(text: str) -> list[float]:
    """Return the numbers of a list such as that of a `viewBox`; empty where one is bad."""
    try:
        return [float(word) for word in text.replace(",", " ").split()]
    except ValueError:
        return []


def has_size(attributes: Mapping[str, str]) -> bool:
    """Whether a drawing says how large it is, in a unit that a ruler has."""
    found = _matched(attributes.get("width", ""))
    return bool(found and found[2].lower() in set(_MM) - {"", "px"})


def view_of(attributes: Mapping[str, str]) -> Affine:
    """Return how a drawing's `viewBox` is scaled to its size; what it is moved by is not asked."""
    box = numbers_of(attributes.get("viewBox", ""))
    width, height = length(attributes.get("width")), length(attributes.get("height"))
    if len(box) != 4 or box[2] <= 0 or box[3] <= 0:
        return SAME
    x = width / box[2] if width else None
    y = height / box[3] if height else None
    if x is None and y is None:
        return SAME
    x, y = x or y or 1.0, y or x or 1.0
    how = attributes.get("preserveAspectRatio", "")
    if "none" not in how:
        x = y = max(x, y) if "slice" in how else min(x, y)
    return x, 0.0, 0.0, y, -box[0] * x, -box[1] * y
