"""How a layout's file is laid out: one key per line, so that people and git can read it."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterable, Mapping
from typing import Any

WIDTH = 100


def quoted(value: object) -> str:
    """Return a value as JSON on one line; what nobody would see on a screen is escaped."""
    text = json.dumps(value, ensure_ascii=False)
    return "".join(sign if _is_seen(sign) else f"\\u{ord(sign):04x}" for sign in text)


def _is_seen(sign: str) -> bool:
    return sign == " " or unicodedata.category(sign)[0] not in "CZM"


def pretty(value: Any, depth: int = 0) -> str:
    """Return JSON in which an object of objects or lists has a line for each, and no other has."""
    if not isinstance(value, Mapping) or depth > 3 or not value:
        return quoted(value)
    lines = [f"{quoted(name)}: {pretty(one, depth + 1)}" for name, one in value.items()]
    margin = "  " * (depth + 1)
    is_flat = depth > 1 and all(not isinstance(one, Mapping | list) for one in value.values())
    body = _wrapped(lines, margin) if is_flat else f",\n{margin}".join(lines)
    return f"{{\n{margin}{body}\n{'  ' * depth}}}"


def _wrapped(pieces: Iterable[str], margin: str) -> str:
    """Return pieces with commas between them, as many on a line as it has room for."""
    lines = [""]
    for piece in pieces:
        if lines[-1] and len(margin) + len(lines[-1]) + len(piece) + 3 > WIDTH:
            lines.append("")
        lines[-1] += f"{', ' if lines[-1] else ''}{piece}"
    return f",\n{margin}".join(lines)


def is_sound(text: str) -> bool:
    """Whether a text reads as JSON and has nothing in it that a screen does not show."""
    json.loads(text)
    return re.search(r"[^\S \n]", text) is None
