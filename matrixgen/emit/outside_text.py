"""Text from outside, of a file or a profile, made safe for a document that people open."""

from __future__ import annotations

import re
import unicodedata

_UNSEEN = frozenset(("Cc", "Cf", "Cs", "Zl", "Zp"))
"""Categories of Unicode with letters that are not seen, or that turn the order of what is."""

_JOINERS = "\u200c\u200d"
"""Letters of that kind that scripts and emoji are written with; they turn no order."""

_MARKDOWN = re.compile(r"[\\`*_\[\]<>&|~]|(?<=:)/(?=/)|(?<=www)\.", re.IGNORECASE)
"""What has a meaning within a line of Markdown: CommonMark 0.30, section 6, and GFM's tables,
strikethrough and links without signs (its sections 4.10, 6.5 and 6.9), all from memory."""

_FORMULA = tuple("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20")
"""What a cell begins with that a spreadsheet takes for a formula, full-width signs too: OWASP, "CSV
Injection", from memory."""


def seen(text: str) -> str:
    """Return text on one line in which each letter can be seen, others as `[U+202E]`."""
    if text.isprintable():
        return text
    return "".join(
        f"[U+{ord(letter):04X}]"
        if unicodedata.category(letter) in _UNSEEN and letter not in _JOINERS
        else letter
        for letter in text
    )


def markdown_text(text: str) -> str:
    """Return text for the middle of a line of Markdown, in which nothing is markup."""
    return _MARKDOWN.sub(r"\\\g<0>", seen(text))


def csv_cell(text: str) -> str:
    """Return text for a cell that no spreadsheet takes for a formula: `'` first where it might."""
    return f"'{seen(text)}" if text.startswith(_FORMULA) else seen(text)
