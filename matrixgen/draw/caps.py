"""An action in the few characters that a keycap has room for, in every form that it may take."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from matrixgen.draw.caption_form import (
    CaptionForm,
    modifier_forms,
    numbered,
    pressed,
    shortened,
)
from matrixgen.draw.signs import GOES_ON, in_turn, signs_pressed
from matrixgen.layouts.key_words import KeyWords
from matrixgen.model import (
    Action,
    FirstSecond,
    InTurn,
    Media,
    OnceModifiers,
    Press,
    TapHold,
    WithModifier,
)
from matrixgen.model.actions.behaviour import Lasts
from matrixgen.usages.key_stroke import KeyStroke
from matrixgen.usages.keycaps import SHORTEST, forms_of, keycap_of_media

LEFT_ALONE = "--"
"""The sign for a key that a layer leaves alone: neither a key's name nor a key's character."""

ONCE = ("1>", "once: for the next key")
"""What is put before modifiers or a layer for the next key only, and what it means."""

LAYER_SIGNS: Mapping[Lasts, tuple[str, str]] = {
    "while down": (">", "hold layer"),
    "until pressed again": (">>", "latch layer"),
    "for the next key": ONCE,
    "for good": ("=>", "change base to"),
}
"""What is put before the name of a layer that a key turns on, and what it means."""

TAP = "/"
"""What is put between a tap and a hold in one line; in two it is `BELOW`."""

TAP_LEGEND, BELOW_LEGEND = ("A/B", "tap A, hold B"), ("2 lines", "tap, and below it hold")


def forms_of_action(
    action: Action, *, between: str = TAP, words: KeyWords | None = None
) -> Iterator[CaptionForm]:
    """Yield the forms of an action, the one to be preferred first; the last is the shortest.

    `words` are those of the computer's layout, if a file names it.
    """
    match action:
        case Press() if words and action.usage:
            yield from signs_pressed(KeyStroke(action.usage, action.modifiers), words)
        case Press():
            yield from pressed(action)
        case InTurn() if words:
            yield from in_turn(action, words)
        case Media(page, usage):
            keycap = keycap_of_media(page, usage)
            yield from shortened(keycap, action.phrase) if keycap else numbered(page, usage)
        case OnceModifiers(modifiers):
            for form in modifier_forms(modifiers):
                yield CaptionForm(ONCE[0] + form.text, (ONCE, *form.legend))
        case TapHold(tap, hold):
            yield from _two(tap, hold, between, words)
        case WithModifier(first) | FirstSecond(first):
            yield from _and_more(action, first, words)
        case _ if action.turns_on:
            yield from _layer(action)
        case _ if action.starts_boot_loader:
            yield from _words("boot", action.phrase)
        case _:
            yield from _words(action.phrase, action.phrase)


def cut(word: str, room: int, mark: str = "~") -> str:
    """Return a word, or as much of it as there is room for and a mark that it goes on."""
    return word if len(word) <= room else f"{word[: max(room - len(mark), 0)]}{mark}"


def _words(short: str, phrase: str) -> Iterator[CaptionForm]:
    """Yield an action of plain words, then its first word, and the beginning of that."""
    for form in dict.fromkeys((short, *forms_of(short.split()[0]))):
        yield CaptionForm(form, ((form, phrase),) if form != phrase else ())


def _layer(action: Action) -> Iterator[CaptionForm]:
    """Yield the sign of how long a layer is on, and the layer's name or its beginning."""
    (turn, *_) = action.turns_on
    sign, meaning = LAYER_SIGNS[turn.lasts]
    yield CaptionForm(sign + turn.layer, ((sign, meaning),))
    for length in range(len(turn.layer) - 1, SHORTEST - 1, -1):
        form = sign + turn.layer[:length]
        yield CaptionForm(form, ((form, action.phrase),))


def _and_more(action: Action, first: Action, words: KeyWords | None) -> Iterator[CaptionForm]:
    """Yield all that an action says; then its first part and a mark, which the legend explains."""
    said = action.said(words.stroke) if words else action.phrase
    yield CaptionForm(said)
    for form in forms_of_action(first, words=words):
        text = form.text + GOES_ON
        yield CaptionForm(text, ((text, said), *form.legend))


def _two(tap: Action, hold: Action, between: str, words: KeyWords | None) -> Iterator[CaptionForm]:
    """Yield a tap and a hold: the tap gets shorter before the hold does."""
    legend = (TAP_LEGEND,) if between == TAP else (BELOW_LEGEND,)
    taps = list(forms_of_action(tap, words=words))
    for second in forms_of_action(hold, words=words):
        for first in taps:
            text = f"{first.text}{between}{second.text}"
            yield CaptionForm(text, (*legend, *first.legend, *second.legend))
