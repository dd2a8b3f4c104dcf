"""An action in the few characters that a keycap has room for, in every form that it may take."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from matrixgen.model import Action, Media, OnceModifiers, Press, TapHold
from matrixgen.model.actions.behaviour import Lasts
from matrixgen.record import Record
from matrixgen.usages import modifier_names, word_of, words_of
from matrixgen.usages.keycaps import (
    KEYPAD,
    SHORTEST,
    forms_of,
    initials_of,
    keycap_of_media,
    keycap_of_usage,
)

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

TAP, BELOW = "/", "\n"
"""What is put between a tap and a hold: in one line, and in two."""

TAP_LEGEND, BELOW_LEGEND = ("A/B", "tap A, hold B"), ("2 lines", "tap, and below it hold")


Legend = tuple[tuple[str, str], ...]
"""Short forms, each with what it means."""


class CaptionForm(Record):
    """One form of an action: its text, and what of it a legend has to explain, as pairs."""

    text: str
    legend: Legend = ()

    @property
    def room(self) -> int:
        """How many characters its longest line has."""
        return max(map(len, self.text.split(BELOW)))


def forms_of_action(action: Action, *, between: str = TAP) -> Iterator[CaptionForm]:
    """Yield the forms of an action, the one to be preferred first; the last is the shortest."""
    match action:
        case Press():
            yield from _pressed(action)
        case Media(page, usage):
            keycap = keycap_of_media(page, usage, action.phrase)
            yield from _shortened(keycap, action.phrase)
        case OnceModifiers(modifiers):
            for form in _modifiers(modifiers):
                yield CaptionForm(ONCE[0] + form.text, (ONCE, *form.legend))
        case TapHold(tap, hold):
            yield from _two(tap, hold, between)
        case _ if action.turns_on:
            yield from _layer(action)
        case _ if action.starts_boot_loader:
            yield from _words("boot", action.phrase)
        case _:
            yield from _words(action.phrase, action.phrase)


def cut(word: str, room: int, mark: str = "~") -> str:
    """Return a word, or as much of it as there is room for and a mark that it goes on."""
    return word if len(word) <= room else f"{word[: max(room - len(mark), 0)]}{mark}"


def _pressed(action: Press) -> Iterator[CaptionForm]:
    if not action.usage:
        yield from _modifiers(action.modifiers)
        return
    words = words_of(action.usage) or (word_of(action.usage),)
    keycap = keycap_of_usage(words, action.usage)
    keys = list(_shortened(keycap, words[0]))
    if not action.modifiers:
        yield from keys
        return
    names = modifier_names(action.modifiers)
    apart = tuple((f"{initials_of(name)}+", f"{name}+") for name in names)
    together = f"{''.join(map(initials_of, names))}+"
    ways: list[tuple[str, Legend]] = [
        ("".join(f"{name}+" for name in names), ()),
        ("".join(sign for sign, _ in apart), apart),
    ]
    if len(names) > 1:
        ways.append((together, ((together, "".join(f"{name}+" for name in names)),)))
    for beginning, legend in ways:
        yield CaptionForm(beginning + keys[0].text, (*legend, *keys[0].legend))
    for key in keys[1:]:
        for beginning, legend in ways[1:]:
            yield CaptionForm(beginning + key.text, (*legend, *key.legend))


def _modifiers(modifiers: int) -> Iterator[CaptionForm]:
    names = modifier_names(modifiers)
    full = "+".join(names)
    yield CaptionForm(full)
    if len(names) == 1:
        yield from (CaptionForm(form, ((form, full),)) for form in list(forms_of(full))[1:])
    short = "+".join(map(initials_of, names))
    yield CaptionForm(f"{short}+", ((f"{short}+", f"{full}+"),))


def _shortened(keycap: str, name: str) -> Iterator[CaptionForm]:
    """Yield a key's keycap and its shorter forms, which the legend explains by its name."""
    own = ((KEYPAD, "keypad"),) if keycap.startswith(KEYPAD) else ()
    for form in forms_of(keycap):
        yield CaptionForm(form, own if form == keycap else ((form, name),))


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


def _two(tap: Action, hold: Action, between: str) -> Iterator[CaptionForm]:
    """Yield a tap and a hold: the tap gets shorter before the hold does."""
    legend = (TAP_LEGEND,) if between == TAP else (BELOW_LEGEND,)
    taps = list(forms_of_action(tap))
    for second in forms_of_action(hold):
        for first in taps:
            text = f"{first.text}{between}{second.text}"
            yield CaptionForm(text, (*legend, *first.legend, *second.legend))
