"""`unlatch layers`."""

from __future__ import annotations

from matrixgen.model.actions import UnlatchLayers
from matrixgen.source.phrases.phrase import Phrase, always

PHRASE = Phrase(
    rule="unlatch",
    behaviour=UnlatchLayers,
    form="unlatch layers",
    read=always(UnlatchLayers()),
)
