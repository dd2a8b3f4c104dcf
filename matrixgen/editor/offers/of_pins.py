"""Pins of the controller that is meant, those that are free and cost nothing first."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.boards import Pin, Profile
from matrixgen.editor.offers.asked import Cursor
from matrixgen.editor.offers.offer import Offer

FREE, TAKEN = 0.0, 10.0
ROUND_THE_BOARD = 0.01
BETWEEN = 2.0


def pins(asked: Cursor) -> Iterator[Offer]:
    """Yield the pins on which a wire may end, and how each is used otherwise."""
    place = _number(asked)
    profile = asked.profiles[place] if place < len(asked.profiles) else None
    if profile is None:
        return
    taken = set(_taken(asked, profile))
    near = _last_pin(asked, profile)
    for pin in profile.usable_pins:
        far = _distance(profile, near, pin) if near else 0
        rank = (TAKEN if pin.name in taken else FREE) + pin.cost + ROUND_THE_BOARD * far
        rank -= BETWEEN * (near is not None and far <= 2 and _is_between(asked, profile, pin))
        yield Offer(_word(asked, profile, pin), rank, _says(pin, pin.name in taken))


def _number(asked: Cursor) -> int:
    """Return for which of the file's controllers the pin is."""
    words = asked.words_before
    return words[words.index("on") :].count(",") if "on" in words else 0


def _taken(asked: Cursor, profile: Profile) -> Iterator[str]:
    words = (*asked.rest_of_file.texts("PIN"), *asked.words_before, *asked.words_after)
    for word in words:
        if pin := profile.pin(word):
            yield pin.name


def _last_pin(asked: Cursor, profile: Profile) -> Pin | None:
    """Return the pin of the wire above: the next one is likely beside it."""
    above = [one for one in asked.rest_of_file.of("PIN") if one.span.line < asked.line]
    known = [pin for one in above if (pin := profile.pin(one.text))]
    return known[-1] if known else None


def _is_between(asked: Cursor, profile: Profile, pin: Pin) -> bool:
    """Whether a pin is also beside that of the wire below."""
    below = [one for one in asked.rest_of_file.of("PIN") if one.span.line > asked.line]
    known = [found for one in below if (found := profile.pin(one.text))]
    return bool(known) and _distance(profile, known[0], pin) <= 2


def _distance(profile: Profile, one: Pin, other: Pin) -> int:
    order = [pin.name for pin in profile.pins]
    far = order.index(other.name) - order.index(one.name)
    return abs(far) * 2 - (far > 0)


def _word(asked: Cursor, profile: Profile, pin: Pin) -> str:
    from matrixgen.boards.pin_words import word_for

    return word_for(pin, profile, asked.rest_of_file.texts("PIN"))


def _says(pin: Pin, is_taken: bool) -> str:
    label = f"label {pin.label}" if pin.label else ""
    also = f"also {pin.duty}" if pin.duty else ""
    return "; ".join(part for part in ("taken" if is_taken else "", label, also) if part)
