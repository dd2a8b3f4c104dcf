"""Slips of the pen in any file of the language: what a hurried maker, or a merge, leaves behind."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

from matrixgen.jobs.catalogue import catalogue
from matrixgen.source.statements import BLOCKS, STATEMENTS

FORMS = [one.form for one in (*BLOCKS.values(), *STATEMENTS.values())]
WORDS = [
    *sorted({word for form in FORMS for word in form.split()}),
    *("=", "~", ",", ":", "+", '"', "#", "~0.5", "~0,5", ":1,5", ":1.5", "12", "to", "and", "on"),
    *("Win+L", "Ctrl-C", "Ctrl +C", "nothing", "hold", "layer", "tap", "\\", "é", "pf4"),
]
WORD = re.compile(r"[^\s,=#]+")


def _place(chance: random.Random, text: str, pattern: re.Pattern[str]) -> re.Match[str] | None:
    found = list(pattern.finditer(text))
    return chance.choice(found) if found else None


def _instead(text: str, match: re.Match[str] | None, new: str) -> str:
    return text if match is None else text[: match.start()] + new + text[match.end() :]


def swap(chance: random.Random, text: str) -> str:
    words = re.split(r"(\s+)", text)
    one, other = (chance.randrange(len(words)) for _ in range(2))
    words[one], words[other] = words[other], words[one]
    return "".join(words)


def drop(chance: random.Random, text: str) -> str:
    return _instead(text, _place(chance, text, WORD), "")


def put(chance: random.Random, text: str) -> str:
    match = _place(chance, text, WORD)
    return _instead(text, match, f"{match.group()} {chance.choice(WORDS)}") if match else text


def other_word(chance: random.Random, text: str) -> str:
    return _instead(text, _place(chance, text, WORD), chance.choice(WORDS))


def misspell(chance: random.Random, text: str) -> str:
    match = _place(chance, text, WORD)
    if match is None:
        return text
    word = match.group()
    cut = chance.randrange(len(word) + 1)
    skip = chance.randrange(2)
    letter = chance.choice([word[:1], "e", "x", "1", ".", ",", "-", ""])
    return _instead(text, match, word[:cut] + letter + word[cut + skip :])


def other_case(chance: random.Random, text: str) -> str:
    match = _place(chance, text, WORD)
    return _instead(text, match, match.group().swapcase()) if match else text


def decimal_comma(chance: random.Random, text: str) -> str:
    return _instead(text, _place(chance, text, re.compile(r"(?<=\d)\.(?=\d)")), ",")


def number_with_comma(chance: random.Random, text: str) -> str:
    match = _place(chance, text, re.compile(r"\b[A-Za-z]\w*(?=\s)"))
    return (
        _instead(text, match, match.group() + chance.choice((":1,5", " ~0,5"))) if match else text
    )


def comma_for_blank(chance: random.Random, text: str) -> str:
    return _instead(
        text, _place(chance, text, re.compile(r"(?<=\w) +(?=\w)")), chance.choice((", ", ","))
    )


def no_comma(chance: random.Random, text: str) -> str:
    return _instead(text, _place(chance, text, re.compile(r",")), " ")


def colon_for_equals(chance: random.Random, text: str) -> str:
    return _instead(text, _place(chance, text, re.compile(r" = ")), chance.choice((": ", ":", " ")))


def no_unit(chance: random.Random, text: str) -> str:
    return _instead(text, _place(chance, text, re.compile(r" ?(ms|us)\b")), "")


def no_small_word(chance: random.Random, text: str) -> str:
    small = r"\b(on|at|clear|press|to|band|toward|are|while|about|turned|sense|drive|lasts) "
    return _instead(text, _place(chance, text, re.compile(small)), "")


def at_for_clear(chance: random.Random, text: str) -> str:
    return _instead(text, _place(chance, text, re.compile(r"keep clear")), "keep clear at")


def broken_line(chance: random.Random, text: str) -> str:
    return _instead(text, _place(chance, text, re.compile(r"(?<=\w) (?=\w)")), " \\\n    ")


def _lines(change: Callable[[random.Random, list[str], int], None]) -> Callable[..., str]:
    def slip(chance: random.Random, text: str) -> str:
        lines = text.splitlines(keepends=True)
        change(chance, lines, chance.randrange(len(lines)))
        return "".join(lines)

    return slip


@_lines
def double_line(chance: random.Random, lines: list[str], place: int) -> None:
    lines.insert(chance.choice((place, chance.randrange(len(lines)))), lines[place])


@_lines
def drop_line(chance: random.Random, lines: list[str], place: int) -> None:
    del lines[place]


@_lines
def indent(chance: random.Random, lines: list[str], place: int) -> None:
    lines[place] = chance.choice(("", "  ", "\t")) + lines[place].lstrip(" \t")


@_lines
def put_form(chance: random.Random, lines: list[str], place: int) -> None:
    lines.insert(place, f"  {chance.choice(FORMS)}\n")


@_lines
def allow(chance: random.Random, lines: list[str], place: int) -> None:
    """An `allow` below a first line, which may hide something, with a comment or a slip in it."""
    words = [match.group() for line in lines for match in WORD.finditer(line)]
    places = [chance.choice([*words, "PF4", "PF5", "pf5"]) for _ in range(chance.randrange(3))]
    slug = chance.choice([*catalogue(), *["pin-with-second-function"] * 20])
    if chance.random() < 0.3:
        slug = misspell(chance, slug)
    heads = [n for n, line in enumerate(lines) if line.startswith("keyboard")]
    if heads:
        note = chance.choice(("", "  # decided on a Sunday"))
        lines.insert(heads[0] + 1, f"  allow {' '.join([slug, *places])}{note}\n")


SLIPS: tuple[Callable[[random.Random, str], str], ...] = (
    *(swap, drop, put, other_word, misspell, misspell, other_case, decimal_comma, decimal_comma),
    *(number_with_comma, comma_for_blank, no_comma, colon_for_equals, no_unit, no_small_word),
    *(at_for_clear, broken_line, double_line, drop_line, indent, put_form, allow, allow),
)
