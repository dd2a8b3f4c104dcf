"""Pins of the controller that is meant, those that are free and cost nothing first."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from matrixgen.boards import Pin, Profile
from matrixgen.editor.offers.asked import Cursor
from matrixgen.editor.offers.offer import Offer

FREE, TAKEN = 0.0, 10.0
COST = 0.1
"""How much each step of a pin's cost counts beside its place."""


def pins(asked: Cursor) -> Iterator[Offer]:
    """Yield the pins on which a wire may end, and how each is used otherwise."""
    place = _number(asked)
    profile = asked.profiles[place] if place < len(asked.profiles) else None
    if profile is None:
        return
    taken = set(_taken(asked, profile))
    known = _known(asked, profile)
    for pin in profile.usable_pins:
        rank = (TAKEN if pin.name in taken else FREE) + pin.cost * COST
        rank -= sum(_near(profile, pin, others) for others in known if others)
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


def _known(asked: Cursor, profile: Profile) -> tuple[list[Pin], list[Pin]]:
    """Return the pins of the wires above, the next one first, and of those below."""
    words = [one for one in asked.rest_of_file.of("PIN") if profile.pin(one.text)]
    pins = [(one.span.line, pin) for one in words if (pin := profile.pin(one.text))]
    own = [pin for word in asked.words_before if (pin := profile.pin(word))]
    above = [pin for line, pin in pins if line < asked.line] + own
    return above[::-1], [pin for line, pin in pins if line > asked.line]


def _orders(profile: Profile) -> Iterator[list[str]]:
    """Yield the orders in which pins follow one another: by their numbers, and along the board."""
    for _, some in groupby(profile.pins, lambda pin: pin.name[:-1] or pin.name):
        yield [pin.name for pin in some]
    for edge in profile.edges:
        yield [word for word in edge.names if profile.pin(word)]


def _near(profile: Profile, pin: Pin, others: list[Pin]) -> float:
    """Return how much nearer a pin is for being beside the first of others, in a run with it."""
    found = 0.0
    for order in _orders(profile):
        places = [order.index(one.name) for one in (pin, *others[:2]) if one.name in order]
        if len(places) > 1 and pin.name in order and others[0].name in order:
            step = places[0] - places[1]
            is_run = len(places) > 2 and step == places[1] - places[2]
            found = max(found, (abs(step) == 1) + (abs(step) == 1 and is_run) / 2)
    return found


def _word(asked: Cursor, profile: Profile, pin: Pin) -> str:
    from matrixgen.boards.pin_words import word_for

    return word_for(pin, profile, asked.rest_of_file.texts("PIN"))


def _says(pin: Pin, is_taken: bool) -> str:
    label = f"label {pin.label}" if pin.label else ""
    also = f"also {pin.duty}" if pin.duty else ""
    return "; ".join(part for part in ("taken" if is_taken else "", label, also) if part)
