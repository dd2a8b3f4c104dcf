"""How a file names pins: by their names in the datasheet, or by the labels on the board."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.boards.profile import Pin, Profile


def word_for(pin: Pin, profile: Profile, words: Iterable[str]) -> str:
    """Return a pin of a profile as a file with these words for pins would name it.

    That is its own word for this pin if it has one; else the label, if any of its words is a label.
    """
    known = {found: word for word in words if (found := profile.pin(word))}
    if pin in known:
        return known[pin]
    by_label = any(word != found.name for found, word in known.items())
    return pin.label if by_label and pin.label else pin.name
