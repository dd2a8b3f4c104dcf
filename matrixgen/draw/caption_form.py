"""The form of a caption, and those of keys and modifiers by their places."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Press
from matrixgen.record import Record
from matrixgen.usages import modifier_names, words_of
from matrixgen.usages.keycaps import KEYPAD, forms_of, initials_of, keycap_of_usage
from matrixgen.usages.numbered import KEYBOARD, phrase_of_usage

BELOW = "\n"
"""What is between two lines of a caption."""

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


def pressed(action: Press) -> Iterator[CaptionForm]:
    """Yield the forms of modifiers, a key, or both."""
    if not action.usage:
        yield from modifier_forms(action.modifiers)
        return
    yield from with_modifiers(action.modifiers, list(keycap_forms(action.usage)))


def keycap_forms(usage: int) -> Iterator[CaptionForm]:
    """Yield a usage's keycap, as a US layout has it, and its shorter forms."""
    words = words_of(usage)
    if words:
        yield from shortened(keycap_of_usage(words, usage), words[0])
    else:
        yield from numbered(KEYBOARD, usage)


def numbered(page: int, usage: int) -> Iterator[CaptionForm]:
    """Yield the forms of a usage without a word: its page and number, shorter in hexadecimal."""
    phrase = phrase_of_usage(page, usage)
    short = f"{page:X}:{usage:X}"
    yield CaptionForm(phrase)
    yield CaptionForm(short, ((short, phrase),))


def with_modifiers(modifiers: int, keys: list[CaptionForm]) -> Iterator[CaptionForm]:
    """Yield the forms of modifiers, if there are any, and a key that has these forms."""
    if not modifiers:
        yield from keys
        return
    names = modifier_names(modifiers)
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


def modifier_forms(modifiers: int) -> Iterator[CaptionForm]:
    """Yield the forms of modifiers alone."""
    names = modifier_names(modifiers)
    full = "+".join(names)
    yield CaptionForm(full)
    if len(names) == 1:
        yield from (CaptionForm(form, ((form, full),)) for form in list(forms_of(full))[1:])
    short = "+".join(map(initials_of, names))
    yield CaptionForm(f"{short}+", ((f"{short}+", f"{full}+"),))


def shortened(keycap: str, name: str) -> Iterator[CaptionForm]:
    """Yield a key's keycap and its shorter forms, which the legend explains by its name."""
    own = ((KEYPAD, "keypad"),) if keycap.startswith(KEYPAD) else ()
    for form in forms_of(keycap):
        yield CaptionForm(form, own if form == keycap else ((form, name),))
