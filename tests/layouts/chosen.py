"""Which layouts there are, and what the tables from outside do not say about Windows and macOS."""

from __future__ import annotations

_NAMES = """
al at az ba be bg bg(phonetic) br by ca ca(eng) ch ch(fr) cz cz(qwerty) de de(neo) dk ee epo es
es(cat) fi fo fr fr(bepo) gb gr hr hu ie is it kz latam lt lv md me mk mt nl no pl pt ro rs
rs(latin) ru se si sk tr tr(f) ua us us(colemak) us(dvorak) us(intl)
"""

NAMES = tuple(_NAMES.split())
"""The layouts that are made, by their names in X11's registry."""

IN_TABLE = {"us(intl)": "us-intl"}
"""What the table of differences calls a layout, where X11 has another name."""

WITHOUT_DIFFERENCES = ("us",)
"""Layouts that the table was made for and that have no row: all signs agree."""

_POLISH_KEYS = "04 06 08 0F 11 12 16 1B 1D"

AGREED = {
    "de": ("€ AltGr 08", "µ AltGr 10"),
    "ch": ("€ AltGr 08", "| AltGr 24"),
    "es": (
        *("€ AltGr 08", "| AltGr 1E", "@ AltGr 1F"),
        *("[ AltGr 2F", "] AltGr 30", "{ AltGr 34", "} AltGr 31"),
    ),
    "it": (
        *("€ AltGr 08", "@ AltGr 33"),
        *("[ AltGr 2F", "] AltGr 30", "{ Shift AltGr 2F", "} Shift AltGr 30"),
    ),
    "pt": ("@ AltGr 1F",),
    "se": ("@ AltGr 1F",),
    "cz": ("< AltGr 36", "> AltGr 37"),
    "pl": tuple(
        f"{sign} {shift}AltGr {usage}"
        for signs, shift in (("ąćęłńóśźż", ""), ("ĄĆĘŁŃÓŚŹŻ", "Shift "))
        for sign, usage in zip(signs, _POLISH_KEYS.split(), strict=True)
    ),
    "us(intl)": ("ß AltGr 16", "¡ AltGr 1E"),
}
"""Signs behind AltGr without a row, and which of X11's ways is the one of Windows and macOS too.

From memory: the table only says that there is such a way. An ASCII sign that has one way is not
listed; `differences.py` refuses to guess where there are several.
"""

EVERYWHERE = {
    "acute": "aeiouAEIOU",
    "grave": "aeiouAEIOU",
    "circumflex": "aeiouAEIOU",
    "diaeresis": "aeiouAEIOUy",
    "tilde": "anoANO",
    "caron": "cdenrstzCDENRSTZ",
    "abovering": "uU",
    "doubleacute": "ouOU",
    "cedilla": "cC",
}
"""What Windows and macOS too make a letter of, after a dead key that the layout has there.

From memory, and less than they do: a letter is here only if every layout with that dead key has it.
"""

CAPS_SHIFTS_ALL_ON_WINDOWS = ("de",)
"""Where Caps Lock is Shift for each key of the main block on Windows (the table's page: sure)."""

SPACING = {
    "abovecomma": "\u0313",
    "abovereversedcomma": "\u0314",
    "belowmacron": "\u02cd",
    "doublegrave": "\u02f5",
    "invertedbreve": "\u0311",
}
"""Signs of dead keys that make none when pressed twice or before Space (Unicode's names)."""
