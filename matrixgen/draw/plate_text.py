"""Where the keys lie, a word a key: rows below each other, as one looks at the plate."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from matrixgen.model import Key
from matrixgen.model.geometry import centre_of

QUIET = "."
"""What stands for a key of which nothing is to be said."""

WIDEST_UNIT = 7
NARROWEST_UNIT = 2

SAME_LINE = 0.5 + 1e-6
"""Key units by which keys of one line of text may differ in height, at most."""

Placed = dict[int, list[tuple[int, str]]]
"""Words by lines, each with the column that its middle should have."""


def plate_text(keys: Sequence[Key], words: Mapping[str, str], width: int = 80) -> list[str]:
    """Return the plate, a line of text a row of keys, no longer than `width` if that can be.

    `words` has what stands at some keys, by their names; all others are a dot. Words that would
    run into each other are moved apart, so that they stay in order rather than in place.
    """
    return [line for line, _ in _lines(keys, words, width)]


def fits(keys: Sequence[Key], words: Mapping[str, str], width: int = 80) -> bool:
    """Whether every word stands where its key is, and no line is too long."""
    return all(in_place and len(line) <= width for line, in_place in _lines(keys, words, width))


def _lines(keys: Sequence[Key], words: Mapping[str, str], width: int) -> list[tuple[str, bool]]:
    """Return each line, and whether its words stand where they should."""
    if not keys:
        return []
    centres = {key.name.text: centre_of(key) for key in keys}
    left = min(x for x, _ in centres.values())
    longest = max(len(word) for word in (*words.values(), QUIET))
    unit = _unit(max(x for x, _ in centres.values()) - left, longest, width)
    line_of = _line_of(y for _, y in centres.values())
    lines: Placed = {}
    for name, (x, y) in centres.items():
        place = round((x - left) * unit)
        lines.setdefault(line_of[y], []).append((place, words.get(name, QUIET)))
    return [_line(placed, longest // 2) for _, placed in sorted(lines.items())]


def _line_of(heights: Iterable[float]) -> dict[float, int]:
    """Return the line of text of each height: keys are in one line that differ by half a unit."""
    found: dict[float, int] = {}
    number, first = -1, float("-inf")
    for height in sorted(set(heights)):
        if height - first > SAME_LINE:
            number, first = number + 1, height
        found[height] = number
    return found


def _unit(span: float, longest: int, width: int) -> int:
    """Return how many letters wide a key unit is: wide enough for the words, if there is room."""
    room = int((width - longest) // span) if span else WIDEST_UNIT
    return max(NARROWEST_UNIT, min(longest + 1, room, WIDEST_UNIT))


def _line(placed: list[tuple[int, str]], margin: int) -> tuple[str, bool]:
    line, in_place = "", True
    for middle, word in sorted(placed):
        wanted = middle - len(word) // 2 + margin
        start = max(wanted, len(line) + bool(line))
        in_place = in_place and start == wanted
        line = line.ljust(start) + word
    return line.rstrip(), in_place
