"""Cures of broken lines that leave no doubt: see `Cure`."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from matrixgen.model.light import LIGHT_COLOURS
from matrixgen.source.patterns import pattern

CureEdits = Iterator[tuple[int, int, str]]
Cure = Callable[[str, int], CureEdits]
"""What a broken statement's only cure is.

It gets the statement's text and the place in it of the word that broke it, counted from 0, and
returns edits: a place, how many letters are to go there, and what comes instead.
"""


def with_unit(unit: str, text: str, place: int) -> CureEdits:
    """Write the unit after a number that lacks it."""
    end = place
    while end < len(text) and not text[end].isspace() and text[end] != "#":
        end += 1
    yield end, 0, f" {unit}"


def with_unit_before(unit: str, text: str, place: int) -> CureEdits:
    """Write the unit after a number that lacks it before a comma."""
    yield len(text[:place].rstrip()), 0, f" {unit}"


def with_word(word: str, text: str, place: int) -> CureEdits:
    """Write the word before a number that lacks it."""
    if pattern(r"-?\d").match(text, place):
        yield place, 0, f"{word} "


def with_word_of_a_length(word: str, text: str, place: int) -> CureEdits:
    """Write the word before a length that lacks it; two numbers may be a place."""
    if "," not in text[place:].partition("\n")[0].partition("#")[0]:
        yield from with_word(word, text, place)


def with_type(text: str, place: int) -> CureEdits:
    """Write `type` before a text in quotes."""
    yield place, 0, "type "


def with_commas(text: str, place: int) -> CureEdits:
    """Write a comma between each two numbers of a line that blanks alone part.

    A comma between two digits may be meant as a decimal one; then nothing is certain.
    """
    start = text.rfind("\n", 0, place) + 1
    line = text[start:].partition("\n")[0].partition("#")[0]
    if pattern(r"\d,\d").search(line):
        return
    for found in pattern(r"(?<=\d)(?=[ \t]+-?\d)").finditer(line):
        yield start + found.start(), 0, ","


def without_commas(text: str, place: int) -> CureEdits:
    """Take out each comma from `place` on, up to a comment: blanks stand between keys.

    A comma with a blank before it may be meant for the key, one in a number for a decimal point,
    and after one at the end a key may be missing; then nothing is certain.
    """
    commas = [at for at, letter in _code_from(text, place) if letter == ","]
    in_number = pattern(r"\d,\d|[:~x][\d.]+,[ \t]*\d")
    if any(text[at - 1].isspace() for at in commas) or in_number.search(text):
        return
    if any(not text[at + 1 :].partition("\n")[0].partition("#")[0].strip() for at in commas):
        return
    for at in commas:
        is_glued = text[at + 1 : at + 2].strip() != ""
        yield at, 1, " " if is_glued else ""


def equals_for_colons(text: str, place: int) -> CureEdits:
    """Write `=` for each colon from `place` on, up to a comment."""
    for at, letter in _code_from(text, place):
        if letter == ":":
            before = "" if text[at - 1 : at].isspace() else " "
            after = "" if text[at + 1 : at + 2].isspace() else " "
            yield at, 1, f"{before}={after}"


def joined_modifiers(text: str, place: int) -> CureEdits:
    """Take out the blanks around each `+` from `place` on that stands between two words."""
    for at, letter in _code_from(text, place):
        start, end = at, at + 1
        while text[start - 1] in " \t":
            start -= 1
        while text[end : end + 1] in (" ", "\t"):
            end += 1
        if letter == "+" and end - start > 1 and text[end : end + 1].strip("#\n+"):
            yield start, end - start, "+"


LIGHT_PARTS = (
    r"on[ \t]+[^\s,#]+(?:[ \t]*,[ \t]*[^\s,#]+)*",
    "|".join(LIGHT_COLOURS),
    r"-?[\d.]+[ \t]+V",
    r"at[ \t]+-?[\d.]+[ \t]+mA",
    r"to[ \t]+(?:ground|supply)",
    r"while[ \t].+[ \t](?:is|are)[ \t]+on",
)
"""What may follow a light's name, in its order, each at most once."""


def light_in_order(text: str, place: int) -> CureEdits:
    """Put all that follows a light's name in its order, where each word of it is known."""
    line = text[: text.find("#") if "#" in text else None].rstrip()
    head = pattern(r"\s*light[ \t]+\S+").match(line)
    if not head or "\n" in line.strip():
        return
    found, at = [], head.end()
    one = pattern("|".join(f"(?P<p{n}>{part})" for n, part in enumerate(LIGHT_PARTS)))
    while at < len(line):
        at += len(line[at:]) - len(line[at:].lstrip())
        part = one.match(line, at)
        if not part or line[part.end() : part.end() + 1].strip():
            return
        found.append((part.lastgroup or "", part.group()))
        at = part.end()
    if len({kind for kind, _ in found}) == len(found) and found != sorted(found):
        ordered = " ".join(words for _, words in sorted(found))
        start = head.end() + 1
        yield start, len(line) - start, ordered


def _code_from(text: str, place: int) -> Iterator[tuple[int, str]]:
    """Yield each letter of a statement and its place, but for its comments."""
    in_comment = False
    for at in range(place, len(text)):
        in_comment = text[at] != "\n" and (in_comment or text[at] == "#")
        if not in_comment:
            yield at, text[at]


CURES: dict[str, Callable[..., CureEdits]] = {
    one.__name__: one
    for one in (
        light_in_order,
        with_unit,
        with_unit_before,
        with_word,
        with_word_of_a_length,
        with_type,
        with_commas,
        without_commas,
        equals_for_colons,
        joined_modifiers,
    )
}
"""Every cure by the name that a lesson gives it."""


def cure_named(words: str) -> Cure:
    """Return the cure of that name, with the word that it writes after it: `with_unit ms`."""
    name, *word = words.split()
    return partial(CURES[name], *word)
