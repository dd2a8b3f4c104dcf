"""The sets of keys of a layer in words: no drawing of keys has room for them."""

from __future__ import annotations

from matrixgen.draw.captions import Captions
from matrixgen.model import Layer


def sets_in_words(layer: Layer, captions: Captions) -> tuple[str, ...]:
    """Return what each set of keys does together, and within what time, in the file's order."""
    return tuple(
        f"{one.key} together, within {one.within_ms} ms: {captions.phrase(one.action)}"
        for one in layer.together
    )
