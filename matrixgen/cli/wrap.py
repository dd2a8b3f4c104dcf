"""Text for a terminal of 80 columns."""

from __future__ import annotations

import textwrap

WIDTH = 80


def wrapped(words: str, label: str = "") -> list[str]:
    """Return words in lines of 80 letters at most, behind a label and below it."""
    return textwrap.wrap(
        words,
        WIDTH,
        initial_indent=label,
        subsequent_indent=" " * len(label),
        break_long_words=False,
        break_on_hyphens=False,
    )
