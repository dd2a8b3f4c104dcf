"""An action in the few letters that a keycap has room for."""

from __future__ import annotations

from matrixgen.model import Action
from matrixgen.usages import word_of, words_of

CUT = "…"
"""What stands for the end of a word that has no room."""

LAYER = ">"
"""What stands before the name of a layer that a key turns on."""


def cap_of(action: Action, room: int) -> str:
    """Return what an action does in `room` letters; two actions of one key with `/` between."""
    return cut(_cap(action, room), room)


def keycap_of(action: Action, room: int) -> str:
    """Return what is printed on an ordinary keycap, if there is such a key; else as `cap_of`.

    That is a sign rather than its name, and `Esc` rather than `Escape`.
    """
    if len(action.sends) == 1 and action.phrase == word_of(action.sends[0]):
        words = [word for word in words_of(action.sends[0]) if not word.startswith("KP")]
        shortest = min(words, key=len, default=action.phrase)
        if len(shortest) <= room:
            return shortest
    return cap_of(action, room)


def cut(word: str, room: int) -> str:
    """Return a word, or as much of it as there is room for."""
    return word if len(word) <= room else f"{word[: max(room - 1, 0)]}{CUT}"


def _cap(action: Action, room: int) -> str:
    if action.parts:
        return "/".join(_cap(part, room // len(action.parts)) for part in action.parts)
    if action.turns_on:
        return "".join(f"{LAYER}{turn.layer}" for turn in action.turns_on)
    if action.starts_boot_loader:
        return "boot"
    if len(action.phrase) <= room:
        return action.phrase
    shorter = action.phrase
    for usage in action.sends:
        word = word_of(usage)
        shorter = shorter.removesuffix(word) + min((word, *words_of(usage)), key=len)
    return shorter
