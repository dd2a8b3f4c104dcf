"""What a computer with a US layout makes of the usages of the keyboard page.

Source: the names of HID Usage Tables 1.12, section 10, say both signs of a key ("Keyboard 1 and !")
and what a key of the keypad is without Num Lock ("Keypad 1 and End"). That `NonUSHash` types as
`Backslash` does is the Linux kernel's and xkb-data's (symbols/us).
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.usages import word_of

CAPS_LOCK, NUM_LOCK = 0x39, 0x53

_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_FIRST_LETTER, _FIRST_DIGIT = 0x04, 0x1E


def _signs() -> Iterator[tuple[int, tuple[str, str]]]:
    for place, letter in enumerate(_LETTERS):
        yield _FIRST_LETTER + place, (letter, letter.upper())
    for place, both in enumerate(zip("1234567890", "!@#$%^&*()", strict=True)):
        yield _FIRST_DIGIT + place, both
    yield 0x2C, (" ", " ")
    for place, both in enumerate(zip("-=[]\\\\;'`,./", '_+{}||:"~<>?', strict=True)):
        yield 0x2D + place, both


SIGNS: dict[int, tuple[str, str]] = dict(_signs())
"""What a usage types: without and with Shift. Caps Lock is Shift for the letters alone."""

KEYPAD_SIGNS = {0x54 + place: sign for place, sign in enumerate("/*-+")}
"""What the keypad types at any time."""

NUMBERS = {0x59 + place: sign for place, sign in enumerate("1234567890.")}
"""What it types while Num Lock is on."""

NUMBERS_ELSE = {
    0x59: 0x4D,
    0x5A: 0x51,
    0x5B: 0x4E,
    0x5C: 0x50,
    0x5E: 0x4F,
    0x5F: 0x4A,
    0x60: 0x52,
    0x61: 0x4B,
    0x62: 0x49,
    0x63: 0x4C,
}
"""The usages that those of `NUMBERS` are like while it is off; the one of 5 does nothing."""

BREAKS = {0x28: "\n", 0x58: "\n", 0x2B: "\t"}
"""Enter, the keypad's and Tab: what they type into a text, Tab without Shift alone."""

EDITS = {
    0x2A: "delete before",
    0x4C: "delete after",
    0x50: "left",
    0x4F: "right",
    0x52: "up",
    0x51: "down",
    0x4A: "start of line",
    0x4D: "end of line",
}
"""What keys do in a text field, in words of ours."""


def usages_of_sign(sign: str) -> Iterator[tuple[int, bool]]:
    """Yield each usage that types a sign, and whether with Shift; those of the keypad come last."""
    for usage, (plain, shifted) in SIGNS.items():
        if sign in (plain, shifted):
            yield usage, sign != plain
    for table in (KEYPAD_SIGNS, NUMBERS):
        for usage, typed in table.items():
            if typed == sign:
                yield usage, False


def us_press_of(sign: str) -> str | None:
    """Return the key, with `Shift+` if need be, that types a sign; None where none does."""
    for usage, shifted in usages_of_sign(sign):
        return f"{'Shift+' if shifted else ''}{word_of(usage)}"
    return None


def plain_us_usage(sign: str) -> int | None:
    """Return the key that types a sign without Shift on a US layout; None where none does."""
    return next((usage for usage, shifted in usages_of_sign(sign) if not shifted), None)
