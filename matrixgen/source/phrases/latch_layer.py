"""`latch layer NAME`."""

from __future__ import annotations

from matrixgen.model.actions import LatchLayer
from matrixgen.source.phrases.layer_name import of_layer
from matrixgen.source.phrases.phrase import Phrase

PHRASE = Phrase(
    rule="latch",
    behaviour=LatchLayer,
    form="latch layer NAME",
    read=of_layer(LatchLayer),
)
