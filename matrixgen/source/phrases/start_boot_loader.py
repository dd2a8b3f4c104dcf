"""`start boot loader`."""

from __future__ import annotations

from matrixgen.model.actions import StartBootLoader
from matrixgen.source.phrases.phrase import Phrase, always

PHRASE = Phrase(
    rule="boot_loader",
    behaviour=StartBootLoader,
    form="start boot loader",
    read=always(StartBootLoader()),
)
