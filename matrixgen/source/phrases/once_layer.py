"""`once layer NAME`."""

from __future__ import annotations

from matrixgen.model.actions import OnceLayer
from matrixgen.source.phrases.layer_name import of_layer
from matrixgen.source.phrases.phrase import Phrase

PHRASE = Phrase(
    rule="once_layer",
    behaviour=OnceLayer,
    form="once layer NAME",
    read=of_layer(OnceLayer),
)
