"""What a layer says of sets of keys and of knobs, in words: no drawing of keys has room for it."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.draw.captions import Captions
from matrixgen.model import Key, Layer


def sets_in_words(layer: Layer, captions: Captions) -> tuple[str, ...]:
    """Return what each set of keys does together, and within what time, in the file's order."""
    return tuple(
        f"{one.key} together, within {one.within_ms} ms: {captions.phrase(one.action)}"
        for one in layer.together
    )


def steps_in_words(layer: Layer, keys: Iterable[Key], captions: Captions) -> tuple[str, ...]:
    """Return what each step of a knob does, if the layer says it: all cells but those of keys."""
    of_keys = {key.name.text for key in keys}
    steps = (one for one in layer.cells if one.given and one.key.text not in of_keys)
    return tuple(f"{one.key}: {captions.phrase(one.action)}" for one in steps)


def beside_in_words(layer: Layer, keys: Iterable[Key], captions: Captions) -> tuple[str, ...]:
    """Return both."""
    return (*sets_in_words(layer, captions), *steps_in_words(layer, keys, captions))
