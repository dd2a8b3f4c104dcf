"""What a layer says of sets of keys and of knobs, in words: no drawing of keys has room for it."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.draw.captions import Captions
from matrixgen.model import Key, Layer


def beside_in_words(layer: Layer, keys: Iterable[Key], captions: Captions) -> tuple[str, ...]:
    """Return what each set of keys does together, in the file's order, and each step of a knob.

    Of steps those that the layer says: all its cells but those of keys.
    """
    of_keys = {key.name.text for key in keys}
    steps = (one for one in layer.cells if one.given and one.key.text not in of_keys)
    return (
        *(
            f"{one.key} together, within {one.within_ms} ms: {captions.phrase(one.action)}"
            for one in layer.together
        ),
        *(f"{one.key}: {captions.phrase(one.action)}" for one in steps),
    )
