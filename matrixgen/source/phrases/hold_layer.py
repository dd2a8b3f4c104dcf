"""`hold layer NAME`."""

from __future__ import annotations

from matrixgen.model.actions import HoldLayer
from matrixgen.source.phrases.layer_name import of_layer
from matrixgen.source.phrases.phrase import Phrase

PHRASE = Phrase(
    rule="hold",
    behaviour=HoldLayer,
    form="hold layer NAME",
    read=of_layer(HoldLayer),
)
