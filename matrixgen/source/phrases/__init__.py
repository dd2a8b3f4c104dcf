"""Phrases: one file a behaviour, which knows its words, its typical mistakes and how it is read."""

from __future__ import annotations

from matrixgen.model.prose import quoted
from matrixgen.source.phrases import hold_layer, latch_layer, nothing, press, start_boot_loader
from matrixgen.source.phrases.phrase import Phrase

PHRASES: dict[str, Phrase] = {
    one.PHRASE.rule: one.PHRASE
    for one in (press, hold_layer, latch_layer, nothing, start_boot_loader)
}
"""Every phrase by the grammar's rule for it."""

FIRST_WORDS: dict[str, Phrase] = {
    phrase.first_word: phrase for phrase in PHRASES.values() if phrase.first_word
}
"""Every phrase by the word that it begins with."""


def forms() -> str:
    """Return everything that can stand after `=`, as a list for a help."""
    return quoted((phrase.form for phrase in PHRASES.values()), "or")


__all__ = ["FIRST_WORDS", "PHRASES", "Phrase", "forms"]
