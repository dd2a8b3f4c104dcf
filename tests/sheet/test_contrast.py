"""Words in the pictures stand out from what they stand on: WCAG 2.1, success criterion 1.4.3, AA.

Relative luminance and contrast ratio are as WCAG 2.1 defines them; axe-core, which looks at the
page's own words, leaves those in pictures out.
"""

from __future__ import annotations

import re

import pytest

from matrixgen.emit.sheet.pictures import style_text

AA = 4.5
WORDS_ON = (
    *(("ink", ground) for ground in ("paper", "cap", "body")),
    *(("faint", ground) for ground in ("paper", "cap")),
)


def colours(block: str) -> dict[str, str]:
    """Return the colours that a rule sets, by name."""
    return dict(re.findall(r"--(\w+): (#[0-9a-f]+)", block))


def schemes() -> dict[str, dict[str, str]]:
    """Return the colours of the pictures in daylight, in the dark and on paper."""
    light = colours(style_text("picture.css").split("}")[0])
    page = style_text("page.css")
    dark = page[page.index("prefers-color-scheme: dark") :]
    paper = page[page.index("@media print") :]
    return {
        "light": light,
        "dark": light | colours(re.findall(r"svg\.plate, svg\.board \{(.*?)\}", dark)[0]),
        "print": light | colours(re.findall(r"svg\.plate, svg\.board \{(.*?)\}", paper)[0]),
    }


def luminance(colour: str) -> float:
    digits = colour[1:] if len(colour) == 7 else "".join(2 * digit for digit in colour[1:])
    parts = [int(digits[place : place + 2], 16) / 255 for place in (0, 2, 4)]
    red, green, blue = (
        part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def test_the_formula_gives_what_wcag_says_of_black_on_white():
    assert contrast("#000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("words", WORDS_ON, ids=" on ".join)
@pytest.mark.parametrize("scheme", ["light", "dark", "print"])
def test_words_stand_out(scheme, words):
    found = schemes()[scheme]
    assert contrast(found[words[0]], found[words[1]]) >= AA
