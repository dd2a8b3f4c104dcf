"""Where the keys lie, a word a key: rows below each other, as one looks at the plate."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from matrixgen.model import Key
from matrixgen.model.geometry import centre_of

QUIET = "."
"""What stands for a key of which nothing is to be said."""

WIDEST_UNIT, WIDEST_OF_ROWS = 7, 12
NARROWEST_UNIT = 2
"""How many characters wide a key unit may be."""

SAME_LINE = 0.5 + 1e-6
"""Key units by which keys of one line of text may differ in height, at most."""

Words = Mapping[str, str]
"""What stands at some keys, by their names."""

Placed = dict[int, list[tuple[int, str]]]
"""Names of keys by lines, each with the column that its middle should have."""


def plate_text(keys: Sequence[Key], words: Words, width: int = 80) -> list[str]:
    """Return the plate, a line of text a row of keys, no longer than `width` if that can be.

    A key without a word is a dot. Words that would run into each other are moved apart, so that
    they stay in order rather than in place.
    """
    return [line for line, _ in _with_dots(keys, words, width)]


def fits(keys: Sequence[Key], words: Words, width: int = 80) -> bool:
    """Whether every word stands where its key is, and no line is too long."""
    return all(in_place and len(line) <= width for line, in_place in _with_dots(keys, words, width))


def plate_rows(keys: Sequence[Key], words: Sequence[Words], unit: float) -> list[list[str]]:
    """Return the plate by rows of keys, a line of text for each of `words`.

    A key unit is `unit` characters wide. A word that has no room moves those after it to the right.
    """
    lines = [line for line, _ in _lines(keys, words, unit, int(unit) - 1)]
    return [lines[place : place + len(words)] for place in range(0, len(lines), len(words))]


def widest_unit(keys: Sequence[Key], width: int) -> float:
    """Return how many characters wide a key unit of `plate_rows` can be in lines of `width`."""
    return max(float(NARROWEST_UNIT), min((width + 1) / (_breadth(keys) + 1), WIDEST_OF_ROWS))


def room_of(key: Key, unit: float, least: int = 1) -> int:
    """Return how many characters a key has room for, beside the space that ends it."""
    return max(int(unit * max(key.width, 1)) - 1, least)


def _with_dots(keys: Sequence[Key], words: Words, width: int) -> list[tuple[str, bool]]:
    longest = max(len(word) for word in (*words.values(), QUIET))
    dots = dict.fromkeys((key.name.text for key in keys), QUIET)
    return _lines(keys, (dots | dict(words),), _unit(_breadth(keys), longest, width), longest)


def _lines(
    keys: Sequence[Key], words: Sequence[Words], unit: float, longest: int
) -> list[tuple[str, bool]]:
    """Return the lines of each row, and whether their words stand where they should."""
    return [
        _line([(middle, one[name]) for middle, name in placed if one.get(name)], longest // 2)
        for _, placed in sorted(_placed(keys, unit).items())
        for one in words
    ]


def _placed(keys: Sequence[Key], unit: float) -> Placed:
    centres = {key.name.text: centre_of(key) for key in keys}
    left = min((x for x, _ in centres.values()), default=0.0)
    line_of = _line_of(y for _, y in centres.values())
    lines: Placed = {}
    for name, (x, y) in centres.items():
        lines.setdefault(line_of[y], []).append((round((x - left) * unit), name))
    return lines


def _breadth(keys: Sequence[Key]) -> float:
    """Return how many units lie between the leftmost middle of a key and the rightmost one."""
    places = [centre_of(key)[0] for key in keys]
    return max(places, default=0.0) - min(places, default=0.0)


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
