"""What other keyboards can do and this program cannot yet: said plainly, and never a spelling."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.similar import similar_name

NOT_YET = {
    "macro": "macros",
    "rgb": "lights of many colours",
    "backlight": "lights below its keys",
    "brightness": "lights below its keys",
    "encoder": "rotary encoders",
    "knob": "rotary encoders",
    "dial": "rotary encoders",
    "joystick": "joysticks",
    "gamepad": "joysticks",
    "midi": "MIDI",
    "sound": "sounds",
    "speaker": "sounds",
    "buzzer": "sounds",
    "display": "displays",
    "oled": "displays",
    "lcd": "displays",
    "bluetooth": "wireless keyboards",
    "wireless": "wireless keyboards",
    "battery": "wireless keyboards",
    "chord": "keys that do something else when pressed together",
    "unicode": "keys that type a character by its number",
    "split": "halves with a controller each",
}
"""What is not there, by a word for it."""

_ENDINGS = ("", "s", "ing")


def not_there_yet(name: str, known: Iterable[str] = ()) -> str | None:
    """Return what is said of a word for what no file can have yet: `MouseLeft`, `rgb-on`, `macro1`.

    None for other words, and where it is more likely one of `known`, misspelt, that has the same
    word in it.
    """
    asked = _asked(name)
    if not asked:
        return None
    near = similar_name(name, known)
    if near and not asked.isdisjoint(_asked(near)):
        return None
    return f"matrixgen has no {NOT_YET[min(asked)]} yet"


def _asked(name: str) -> set[str]:
    """Return the words in a name that are words for what is not there."""
    parts = _parts(name)
    return {word for word in NOT_YET if any(word + end in parts for end in _ENDINGS)}


def _parts(name: str) -> list[str]:
    """Return the words that a name is made up of, by its capitals, digits and signs."""
    parts, before = [""], ""
    for letter in name:
        is_new = letter.isupper() and not before.isupper()
        if not letter.isalpha() or is_new:
            parts.append("")
        if letter.isalpha():
            parts[-1] += letter.casefold()
        before = letter
    return [part for part in parts if part]
