"""Phrases: one file a behaviour, which knows its words, its typical mistakes and how it is read."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.model.actions import Behaviour
from matrixgen.model.prose import quoted
from matrixgen.source.phrases import (
    change_base,
    first_second,
    hold_layer,
    in_turn,
    latch_layer,
    media,
    nothing,
    once_layer,
    once_modifiers,
    pointer,
    press,
    start_boot_loader,
    tap_hold,
    unlatch_layers,
    usage_number,
    with_modifier,
)
from matrixgen.source.phrases.phrase import Phrase

PHRASES: dict[type[Behaviour], Phrase] = {
    one.PHRASE.behaviour: one.PHRASE
    for one in (
        press,
        media,
        pointer,
        hold_layer,
        latch_layer,
        unlatch_layers,
        once_layer,
        once_modifiers,
        change_base,
        tap_hold,
        first_second,
        in_turn,
        with_modifier,
        nothing,
        start_boot_loader,
    )
}
"""Every phrase by what it makes."""

ALSO: tuple[Phrase, ...] = (usage_number.PHRASE,)
"""Phrases that are other words for what one of those makes."""

EVERY = (*PHRASES.values(), *ALSO)

READ_AS: dict[str, Phrase] = {
    "typed": in_turn.PHRASE,
    **{phrase.rule: phrase for phrase in reversed(EVERY)},
}
"""The phrase that each rule of the grammar is read as; where several share one, the first.

A text alone is one step of what is typed in turn.
"""

FIRST_WORDS: dict[str, Phrase] = {
    phrase.first_word: phrase for phrase in reversed(EVERY) if phrase.first_word
}
"""Every phrase by the word that it begins with; of two that share it, the one listed first."""


def phrase_length(words: Sequence[str]) -> int:
    """Return how many words the phrase has that begins with the first of these."""
    forms = [one.form.split() for one in EVERY if one.first_word == words[0]]
    return len(next((form for form in forms if _is_like(words, form)), forms[0]))


def _is_like(words: Sequence[str], form: Sequence[str]) -> bool:
    """Whether words have those of a form where that has no name."""
    return len(words) >= len(form) and all(
        part.isupper() or part == word for word, part in zip(words, form, strict=False)
    )


def forms() -> str:
    """Return everything that can stand after `=`, as a list for a help."""
    return quoted((phrase.form for phrase in PHRASES.values()), "or")
