"""Words for the keys of a pointer: its buttons, the ways that it moves, and its wheels.

Source: USB HID Usage Tables 1.12: X 0x30, Y 0x31 and Wheel 0x38 of section 4, "Generic Desktop Page
(0x01)"; buttons by their numbers, section 12, "Button Page (0x09)"; AC Pan 0x238 of section 15,
"Consumer Page (0x0C)", for a wheel that turns sideways. Y grows downwards, a wheel's count away
from the user: section 4.2. To the right is the positive way of AC Pan.
"""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.usages.numbered import CONSUMER, GENERIC_DESKTOP

BUTTONS = 0x09
X, Y, WHEEL, PAN = (
    (GENERIC_DESKTOP, 0x30),
    (GENERIC_DESKTOP, 0x31),
    (GENERIC_DESKTOP, 0x38),
    (CONSUMER, 0x238),
)

BUTTON_COUNT = 5
"""Buttons that Linux and Windows have names for: left, right, middle, back, forward (memory)."""

AXES = (X, Y, WHEEL, PAN)
"""What a report counts, in its order; the first two are the pointer's, the others the wheels'."""

PointerUsage = tuple[int, int, int]
"""A page, a usage of it, and the way: -1 or 1 on an axis, 0 for a button."""

_USAGES: dict[str, PointerUsage] = {
    **{f"Button{number}": (BUTTONS, number, 0) for number in range(1, BUTTON_COUNT + 1)},
    "PointerLeft": (*X, -1),
    "PointerRight": (*X, 1),
    "PointerUp": (*Y, -1),
    "PointerDown": (*Y, 1),
    "WheelDown": (*WHEEL, -1),
    "WheelUp": (*WHEEL, 1),
    "WheelLeft": (*PAN, -1),
    "WheelRight": (*PAN, 1),
}
_WORDS = {usage: word for word, usage in _USAGES.items()}
_FOLDED = {word.casefold(): usage for word, usage in _USAGES.items()}


def pointer_usage_of(word: str) -> PointerUsage | None:
    """Return the usage and the way that `word` names, in any mixture of capitals, or None."""
    return _FOLDED.get(word.casefold())


def pointer_word(page: int, usage: int, way: int) -> str:
    """Return the word for a usage and a way."""
    return _WORDS[page, usage, way]


def pointer_words() -> Iterable[str]:
    """Return all words, exactly as they are spelt."""
    return _USAGES
