"""Small changes to a C text, each of which ought to be a mistake."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from matrixgen.resources import resource
from tests.mutants.tokens import TYPES, Token, arguments, closing, code_of, function_at, tokens_of

OTHER_WORDS = """
<: <=
<=: <
>: >=
>=: >
==: !=
!=: ==
&&: ||
||: &&
^: |
<<: >>
>>: <<
|=: &= =
&=: |= =
^=: |= &=
++: --
--: ++
true: false
false: true
TAP: HOLD NOTHING_YET
HOLD: TAP NOTHING_YET
NOTHING_YET: TAP HOLD
EDGE_TAKEN_BACK: EDGE_ADDED EDGE_REFUSED
EDGE_ADDED: EDGE_TAKEN_BACK
EDGE_REFUSED: EDGE_TAKEN_BACK
BOOT_REPORT_BYTES: REPORT_BYTES
REPORT_BYTES: BOOT_REPORT_BYTES
PRESS_MS: DEBOUNCE_MS
DEBOUNCE_MS: PRESS_MS
BY_PRESS: BY_RELEASE
BY_RELEASE: BY_PRESS
modifiers_down: modifiers_once
modifiers_once: modifiers_down
pressed_ms: let_go_ms
let_go_ms: pressed_ms
settled: count
low: high
high: low
low_byte: high_byte
high_byte: low_byte
armed: locked
locked: armed
fresh: held
tap: hold
hold: tap
"""
OTHERS = {
    word: others.split()
    for word, others in (line.split(": ") for line in OTHER_WORDS.strip().splitlines())
}
"""What may stand there instead of a word or sign."""

BETWEEN = {"+": "-", "-": "+", "&": "|", "|": "&"}
"""Signs that stand between two values, or before one."""

DROPPED = re.compile(
    r"^(?:\*?\w[\w\->.\[\]& ]*? ?[|&^]?= .*|\w+\(.*\)|\w+(?:\+\+|--)|break|continue);$"
)


@dataclass(frozen=True)
class Mutant:
    """A file with one change."""

    file: str
    function: str
    line: int
    before: str
    after: str
    text: str

    @property
    def key(self) -> tuple[str, str, str, str]:
        """What names it in whatever line it stands."""
        return (self.file, self.function, self.before, self.after)


Change = tuple[int, int, str]
"""From where, to where, what instead."""


def mutants_of(file: str, text: str) -> list[Mutant]:
    """Return every mutant of a file, in the order of their places."""
    code = code_of(text)
    tokens = tokens_of(code)
    found = {
        *_signs(tokens),
        *_numbers(tokens),
        *_conditions(code, tokens),
        *_swapped(code, tokens),
    }
    return [_made(file, text, code, change) for change in sorted({*found, *_dropped(code)})]


def engine_mutants() -> Iterator[Mutant]:
    """Return what comes of the engine's C, without its interfaces."""
    root = resource("templates") / "firmware"
    for path in sorted((root / "engine").rglob("*.[ch]")):
        if path.suffix == ".c" or path.parent.name == "behaviours":
            yield from mutants_of(path.relative_to(root).as_posix(), path.read_text("utf-8"))


def _made(file: str, text: str, code: str, change: Change) -> Mutant:
    start, end, instead = change
    changed = text[:start] + instead + text[end:]
    first, number = text.rfind("\n", 0, start) + 1, text.count("\n", 0, start)
    before = code[first : text.find("\n", end)]
    after = code[first:start] + instead + code[end : text.find("\n", end)]
    where = function_at(code, start)
    if before.strip() in ("break;", "continue;"):  # alike in many places
        above = code[text.rfind("\n", 0, first - 1) + 1 : first].strip()
        before = f"{above} {before.strip()}"
    return Mutant(file, where, number + 1, before.strip(), after.strip(), changed)


def _signs(tokens: list[Token]) -> Iterator[Change]:
    for before, token in pairwise(tokens):
        for other in OTHERS.get(token.text, ()):
            yield (token.start, token.end, other)
        is_value = before.text.isidentifier() or before.text.isdigit() or before.text in (")", "]")
        if token.text in BETWEEN and is_value and before.text != "return":
            yield (token.start, token.end, BETWEEN[token.text])
        elif token.text in ("~", "!"):
            yield (token.start, token.end, "")


def _numbers(tokens: list[Token]) -> Iterator[Change]:
    for token in tokens:
        if re.fullmatch(r"(?:0x[0-9A-Fa-f]+|\d+)u?", token.text):
            number = int(token.text.rstrip("u"), 0)
            for other in {number + 1, abs(number - 1)}:
                yield (token.start, token.end, str(other))


def _conditions(code: str, tokens: list[Token]) -> Iterator[Change]:
    for place, (word, opening) in enumerate(pairwise(tokens), 1):
        if word.text in ("if", "while") and opening.text == "(":
            start, end = opening.end, tokens[closing(tokens, place)].start
            for instead in (f"!({code[start:end]})", "true", "false"):
                yield (start, end, instead)


def _swapped(code: str, tokens: list[Token]) -> Iterator[Change]:
    for place, (name, opening) in enumerate(pairwise(tokens), 1):
        is_call = name.text.isidentifier() and name.text not in (
            "if",
            "while",
            "for",
            "switch",
            "return",
        )
        starts_line = code[code.rfind("\n", 0, name.start) + 1] not in " \t"
        if opening.text != "(" or not is_call or starts_line:
            continue
        for (start, middle), (other, end) in pairwise(arguments(tokens, place)):
            if code[start:middle] != code[other:end]:
                yield (start, end, code[other:end] + code[middle:other] + code[start:middle])


def _dropped(code: str) -> Iterator[Change]:
    start = 0
    for line in code.splitlines(keepends=True):
        text = line.strip()
        if (
            DROPPED.match(text)
            and line[0] in " \t"
            and text.split()[0].strip("*") not in (*TYPES, "return")
        ):
            begin = start + line.index(text)
            yield (begin, begin + len(text), ";")
        start += len(line)
