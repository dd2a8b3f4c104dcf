"""`nothing`."""

from __future__ import annotations

from matrixgen.model.actions import Nothing
from matrixgen.source.phrases.phrase import Phrase, always

PHRASE = Phrase(
    rule="nothing",
    behaviour=Nothing,
    form="nothing",
    read=always(Nothing()),
)
