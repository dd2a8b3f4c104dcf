"""Which layers can lie at the bottom for good."""

from __future__ import annotations

from matrixgen.model.keyboard import Keyboard
from matrixgen.model.layers import BASE


def bases_of(keyboard: Keyboard) -> list[str]:
    """Return `base` and each layer that a key changes the base to, in the order of the file.

    A keyboard that remembers its base keeps the place in this list: neither a layer's name nor the
    layers that lie on the bases make a difference to it.
    """
    laid = {
        turn.layer
        for action in keyboard.every_action
        for turn in action.turns_on
        if turn.lasts == "for good"
    }
    names = [layer.name.text for layer in keyboard.layers]
    return [BASE, *(name for name in names if name in laid and name != BASE)]
