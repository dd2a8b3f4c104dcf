"""The tables of words in `grammar/README.md`."""

from __future__ import annotations

from matrixgen.usages import name_of, usages, words_of
from matrixgen.usages.media import media_usages, media_words_of


def word_table() -> str:
    """Return every usage with its words, as a table in Markdown."""
    rows = ["| usage | word | other words |", "| --- | --- | --- |"]
    for usage in usages():
        others = " ".join(_code(word) for word in words_of(usage)[1:])
        rows.append(f"| 0x{usage:02X} | {_code(name_of(usage))} | {others} |")
    return "\n".join(rows) + "\n"


def media_table() -> str:
    """Return every media key with its words, as a table in Markdown."""
    rows = ["| page and usage | word | other words |", "| --- | --- | --- |"]
    for page, usage in media_usages():
        word, *others = media_words_of(page, usage)
        digits = f"0x{page:02X} 0x{usage:02X}"
        rows.append(f"| {digits} | {_code(word)} | {' '.join(map(_code, others))} |")
    return "\n".join(rows) + "\n"


def _code(word: str) -> str:
    """Return a word as code; a backtick needs two around it."""
    return f"`` {word} ``" if "`" in word else f"`{word}`"
