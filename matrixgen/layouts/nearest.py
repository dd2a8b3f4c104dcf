"""Which layouts somebody may have meant who wrote a name that there is not."""

from __future__ import annotations

from matrixgen.layouts.files import layout_language, layout_names

MOST = 4
"""Names that are offered (a choice)."""

ALSO_CALLED = {
    "qwerty": "us",
    "qwertz": "de",
    "azerty": "fr",
    "uk": "gb",
    "usa": "us",
    "deutsch": "de",
    "deutschland": "de",
    "francais": "fr",
    "france": "fr",
}
"""What people call a layout by its first keys, or by a country or language in another tongue."""


def nearest_layouts(name: str) -> list[str]:
    """Return the layouts that `name` was probably meant to be, the most likely first.

    That is one with a similar name, those of the same country, or of the language of that name.
    """
    from matrixgen.similar import similar_name  # only after a mistake: it brings the model

    names = layout_names()
    folded = name.casefold().strip()
    codes = folded.partition("(")[0].replace("_", "-").split("-")  # de_CH is ch
    same = [one for code in reversed(codes) for one in names if one.partition("(")[0] == code]
    spelt = ALSO_CALLED.get(folded) or similar_name(name, names)
    spoken = [one for one in names if _is_language(folded, layout_language(one))]
    spoken.sort(key=lambda one: len(layout_language(one)))  # German before German (Austria)
    return list(dict.fromkeys([*([spelt] if spelt else []), *same, *spoken]))[:MOST]


def _is_language(word: str, language: str) -> bool:
    """Whether a word is one of those that say a layout's language; short words are codes."""
    return len(word) > 3 and any(
        one.strip("(),").startswith(word) or (len(one) > 4 and word.startswith(one))
        for one in language.casefold().split()
    )
