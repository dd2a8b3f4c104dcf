"""What is printed on the keycap of a usage, and shorter forms of it: plain letters alone.

The one place that knows short forms. All are made from the words of `table.py` and `media_table.py`
and from the characters of `us_layout.py`: what this file has of its own are the rules. A short form
never is a word of another usage. ASCII alone, so that a form is the same on every terminal and on
paper.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from matrixgen.usages import is_word, usage_of
from matrixgen.usages.media import media_words_of
from matrixgen.usages.us_layout import KEYPAD_SIGNS, NUMBERS, SIGNS, usages_of_sign

KEYPAD = "KP"
"""What the keycap of a key of the keypad begins with here, each of them."""

SHORTEST = 2
"""Letters of a short form, at least: one letter is a key."""

_PARTS = re.compile(r"[A-Z]+(?![a-z])|[A-Z][a-z]*|[^A-Z]+")
_VOWELS = re.compile(r"(?<=[A-Za-z])[aeiou]")


def keycap_of_usage(words: tuple[str, ...], usage: int) -> str:
    """Return what is printed on the keycap of a usage of the keyboard page that has these words.

    That is the character that it types, or the shortest of its words: `Esc`, `;`. A key of the
    keypad is `KP` and its character, or `KP` and the rest of its name: `KP7`, `KP/`, `KPEnter`,
    or less of that where it is a word of another key, as `KPDecimal` is.
    """
    on_keypad = KEYPAD_SIGNS.get(usage) or NUMBERS.get(usage)
    if on_keypad:
        return KEYPAD + on_keypad
    if words[0].startswith("Keypad"):
        forms = forms_of(KEYPAD + words[0].removeprefix("Keypad"))
        return next(one for one in forms if usage_of(one) in (None, usage))
    sign = SIGNS.get(usage, ("", ""))[0]
    if sign.strip() and next(usages_of_sign(sign)) == (usage, False):
        return sign.upper()
    return min(words, key=len)


def keycap_of_media(page: int, usage: int) -> str | None:
    """Return what is printed on the keycap of a media key: the shortest word; None without any."""
    return min(media_words_of(page, usage), key=len, default=None)


def forms_of(keycap: str) -> Iterator[str]:
    """Yield a keycap's word, then ever shorter forms of it that no other key has as its word.

    First the initials of all but its last part, then without vowels, then the beginning of its last
    part, then of what has no vowels.
    """
    yield keycap
    if keycap.startswith(KEYPAD):
        beginning, word = KEYPAD, keycap.removeprefix(KEYPAD)
    else:
        beginning, word = "", keycap
    *before, last = _PARTS.findall(word) or [word]
    initials = "".join(part[0] for part in before)
    forms = [initials + last, _VOWELS.sub("", initials + last)]
    forms = [one for one in forms if len(one) > SHORTEST]
    begun = [initials + last[:length] for length in range(len(last) - 1, 0, -1)]
    forms += [*begun, *(forms[-1][:length] for length in range(len(word) - 1, 0, -1) if forms)]
    forms = [one for one in forms if len(one) >= SHORTEST]
    for form in dict.fromkeys(beginning + form for form in forms):
        if form != keycap and not is_word(form):
            yield form


def initials_of(word: str) -> str:
    """Return the initials of a word's parts: `S` of `Shift`, `RC` of `RightCtrl`."""
    return "".join(part[0] for part in _PARTS.findall(word))
