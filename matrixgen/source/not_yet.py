"""What other keyboards can do and this program cannot yet, or has by another word: said plainly."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from matrixgen.similar import similar_name

NOT_YET = {
    "macro": "macros",
    "rgb": "lights of many colours",
    "backlight": "lights below its keys",
    "brightness": "lights below its keys",
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
    "unicode": "keys that type a character by its number",
    "split": "halves with a controller each",
}
"""What is not there, by a word for it."""

KNOB = (
    "a rotary encoder is a knob: `knob volume on PD2 PD3` in the block `wiring`, and "
    "`volume.left = VolumeDown` in a layer"
)
SAID_OTHERWISE = {
    **dict.fromkeys(("encoder", "rotary", "knob", "dial"), KNOB),
    "chord": "keys that are one action together are written `together J K = Esc`, in a layer",
}
"""How what is there is written, by another word for it."""

_ENDINGS = ("", "s", "ing")


def not_there_yet(name: str, known: Iterable[str] = ()) -> str | None:
    """Return what is said of a word for what no file can have yet: `MouseLeft`, `rgb-on`, `macro1`.

    None for other words, and where it is more likely one of `known`, misspelt, that has the same
    word in it.
    """
    lacking = _of_a_word(name, NOT_YET, known)
    return f"matrixgen has no {lacking} yet" if lacking else None


def said_otherwise(name: str, known: Iterable[str] = ()) -> str | None:
    """Return how what a word like `EncoderLeft` is for is written; None as above."""
    return _of_a_word(name, SAID_OTHERWISE, known)


def _of_a_word(name: str, of_words: Mapping[str, str], known: Iterable[str]) -> str | None:
    """Return what a table has for a word in a name, unless that is one of `known`, misspelt."""
    asked = _asked(name, of_words)
    near = similar_name(name, known) if asked else None
    if not asked or (near and not asked.isdisjoint(_asked(near, of_words))):
        return None
    return of_words[min(asked)]


def _asked(name: str, of_words: Iterable[str]) -> set[str]:
    """Return the words of a table that are in a name."""
    parts = _parts(name)
    return {word for word in of_words if any(word + end in parts for end in _ENDINGS)}


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
