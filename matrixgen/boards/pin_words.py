"""How a file names pins: by their names in the datasheet, or by the labels on the board."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from matrixgen.boards.pin import Pin
from matrixgen.boards.profile import Profile

SERIAL = ("TX", "RX")
"""The pins of the serial port, as they are called where the label has a letter or digit more."""


def word_for(pin: Pin, profile: Profile, words: Iterable[str]) -> str:
    """Return a pin of a profile as a file with these words for pins would name it.

    That is its own word for this pin if it has one; else the label, if any of its words is a label.
    """
    known = {found: word for word in words if (found := profile.pin(word))}
    if pin in known:
        return known[pin]
    by_label = any(word != found.name for found, word in known.items())
    return pin.label if by_label and pin.label else pin.name


def likely_pins(word: str, profile: Profile) -> tuple[Pin, ...]:
    """Return the pins that a word may mean that is none of the profile's own, most likely first.

    Other boards print `D2` where this one prints `2`, or `TX` where this one prints `TXO`; and a
    datasheet writes `PD2` or `PA02` where a maker writes `D2` or `PA2`.
    """
    found = dict.fromkeys((*_by_label(word, profile), *_by_name(word, profile)))
    return tuple(pin for pin in found if pin.is_usable)


def _by_label(word: str, profile: Profile) -> Iterator[Pin]:
    said = word.upper()
    for pin in profile.pins:
        label = (pin.label or "").upper()
        if label and (
            said == f"D{label}" or (label[:2] in SERIAL and said[:2] == label[:2] and len(said) < 4)
        ):
            yield pin


def _by_name(word: str, profile: Profile) -> Iterator[Pin]:
    said = {_plain(word), _plain(f"P{word}")}
    if word.upper().startswith(("GP", "IO")):
        said.add(_plain(f"GPIO{word[2:]}"))
    return (pin for pin in profile.pins if _plain(pin.name) in said)


def _plain(name: str) -> str:
    """Return a name in capitals, its numbers without zeros in front."""
    plain = ""
    for letter in name.upper():
        if letter.isdigit() and plain[-1:] == "0" and not plain[-2:-1].isdigit():
            plain = plain[:-1]
        plain += letter
    return plain
