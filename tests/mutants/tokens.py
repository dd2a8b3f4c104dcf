"""A C file as tokens with their places; comments, texts and preprocessor lines are none."""

from __future__ import annotations

import re
from dataclasses import dataclass

NO_CODE = re.compile(
    r'/\*.*?\*/|__attribute__\(\(\w+\)\)|//[^\n]*|"(?:\\.|[^"\\\n])*"|^[ \t]*#[^\n]*',
    re.DOTALL | re.MULTILINE,
)
TOKEN = re.compile(r"->|\+\+|--|<<=|>>=|<<|>>|<=|>=|==|!=|&&|\|\||[|&^+\-]=|\w+|[^\s\w]")
TYPES = (
    *(
        "static",
        "extern",
        "inline",
        "const",
        "struct",
        "enum",
        "FLASH",
        "typedef",
        "_Static_assert",
    ),
    *("void", "bool", "uint8_t", "uint16_t", "moment", "action_number", "layer_set", "line_set"),
    *("key_number", "unsigned", "int"),
)
"""What a declaration begins with in the engine."""


@dataclass(frozen=True)
class Token:
    """A word or sign of a text, from `start` to `end`."""

    text: str
    start: int
    end: int


def code_of(text: str) -> str:
    """Return a text of the same length in which all that is no code is blank."""
    return NO_CODE.sub(lambda found: re.sub(r"[^\n]", " ", found[0]), text)


def tokens_of(code: str) -> list[Token]:
    return [Token(found[0], found.start(), found.end()) for found in TOKEN.finditer(code)]


def closing(tokens: list[Token], opening: int) -> int:
    """Return the place of the parenthesis that closes the one at a place."""
    depth = 0
    for place in range(opening, len(tokens)):
        depth += {"(": 1, ")": -1}.get(tokens[place].text, 0)
        if depth == 0:
            return place
    raise ValueError(tokens[opening])


def arguments(tokens: list[Token], opening: int) -> list[tuple[int, int]]:
    """Return where each argument between the parentheses begins and ends in the text."""
    close, depth, begin, found = closing(tokens, opening), 0, opening + 1, []
    for place in range(opening + 1, close + 1):
        text = tokens[place].text
        if depth == 0 and text in (",", ")") and place > begin:
            found.append((tokens[begin].start, tokens[place - 1].end))
            begin = place + 1
        depth += (text in "([{") - (text in ")]}")
    return found


def function_at(code: str, place: int) -> str:
    """Return the name of the function around a place; `above` above all of them."""
    heads = re.findall(
        r"^(?!(?:enum|struct)(?: \w+)? \{|typedef)(?:\w| +static)[^;=]*?(\w+)\([^;=]*?\)\s*\{",
        code[:place],
        re.MULTILINE,
    )
    return heads[-1] if heads else "above"
