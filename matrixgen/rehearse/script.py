"""A script: what fingers do, in words.

`+Key` presses a key of the plate, `-Key` lets it go, `Key` alone taps it, `wait 200` lets 200 ms
pass. Several stand on a line; `#` starts a comment.
"""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Iterator, Set

from matrixgen.computer.setting import layout_of
from matrixgen.model import Diagnostic, Keyboard, SourceText, Span, Word
from matrixgen.record import Record
from matrixgen.rehearse.keys_that_type import keys_that_type
from matrixgen.rehearse.problems import PROBLEMS
from matrixgen.similar import similar_help

WAIT, UNIT = "wait", "ms"
LONGEST_WAIT_MS = 60_000
USUAL = "`+Key` presses a key of the plate, `-Key` releases it, `Key` taps it, `wait 200` waits"

_WORD = re.compile(r"\S+")


class Move(Record):
    """A key goes down or up."""

    key: str
    down: bool


class Tap(Record):
    """A key goes down and up again."""

    key: str


class Wait(Record):
    """Nothing moves for some milliseconds."""

    ms: int


Step = Move | Tap | Wait


def read_script(
    path: str, text: str, keyboard: Keyboard, down: Set[str] = frozenset()
) -> tuple[list[Step], list[Diagnostic]]:
    """Return the steps of a script, and what is wrong with it; `down` are keys down before it."""
    reader = _Reader(keyboard, down)
    steps = [step for words in _lines(SourceText(path, text)) for step in reader.line(words)]
    return steps, reader.findings


def _lines(source: SourceText) -> Iterator[list[Word]]:
    for number, line in enumerate(source.lines, 1):
        before = line.partition("#")[0]
        yield [
            Word(found[0], Span.in_line(source.path, number, found.start() + 1, len(found[0])))
            for found in _WORD.finditer(before)
        ]


class _Reader:
    """Reads lines of words, and knows which keys they leave down.

    An unknown name is reported once, however often it is written.
    """

    def __init__(self, keyboard: Keyboard, down: Set[str]) -> None:
        self.keys = {key.name.text for key in keyboard.keys}
        self.layout = layout_of(keyboard)
        self.of_usage = keys_that_type(keyboard).of_usage if self.layout else {}
        self.down = set(down)
        self.unknown: set[str] = set()
        self.findings: list[Diagnostic] = []

    def line(self, words: list[Word]) -> Iterator[Step]:
        rest = deque(words)
        while rest:
            word = rest.popleft()
            is_wait = word.text == WAIT and WAIT not in self.keys
            step = self._wait(word, rest) if is_wait else self._key(word)
            if step is not None:
                yield step

    def _wait(self, word: Word, rest: deque[Word]) -> Step | None:
        """Read the time after a `wait`, with or without its unit; another step is no time."""
        has_time = bool(rest) and (rest[0].text[0].isdigit() or not self._is_step(rest[0].text))
        time = rest.popleft() if has_time else word
        if has_time and rest and rest[0].text == UNIT:
            rest.popleft()
        digits = time.text.removesuffix(UNIT)
        if digits.isascii() and digits.isdigit() and int(digits[:9]) <= LONGEST_WAIT_MS:
            return Wait(int(digits))
        message = f"`{time}` is not a time to wait" if has_time else "`wait` has no time after it"
        help = f"write milliseconds in digits, at most {LONGEST_WAIT_MS}, as in `wait 200`"
        self._report("bad-wait", time, message, help)
        return None

    def _is_step(self, text: str) -> bool:
        if text == WAIT or self._called(text):
            return True
        return text[0] in "+-" and self._called(text[1:]) is not None

    def _key(self, word: Word) -> Step | None:
        sign, name = word.text[:1], word.text[1:]
        if key := self._called(word.text):
            return self._tap(word, key)
        if sign in "+-" and (key := self._called(name)):
            return self._press(word, key) if sign == "+" else self._let_go(word, key)
        self._report_unknown(word, name if sign in "+-" and name else word.text)
        return None

    def _called(self, name: str) -> str | None:
        """Return the key of that name, or else the one that carries a letter or sign."""
        if name in self.keys or self.layout is None:
            return name if name in self.keys else None
        usage = self.layout.switch_of(name)
        return None if usage is None else self.of_usage.get(usage)

    def _tap(self, word: Word, key: str) -> Step | None:
        if key in self.down:
            self._report("key-already-down", word, f"`{key}` is down", f"`-{key}` releases it")
            return None
        return Tap(key)

    def _press(self, word: Word, key: str) -> Step | None:
        if key in self.down:
            self._report("key-already-down", word, f"`{key}` is down", f"`-{key}` releases it")
            return None
        self.down.add(key)
        return Move(key, True)

    def _let_go(self, word: Word, key: str) -> Step | None:
        if key not in self.down and self.unknown:
            return None  # it may be the one whose name was misspelt when it was pressed
        if key not in self.down:
            help = f"`+{key}` presses it, `{key}` by itself taps it"
            self._report("key-not-down", word, f"`{key}` is not down", help)
            return None
        self.down.remove(key)
        return Move(key, False)

    def _report_unknown(self, word: Word, name: str) -> None:
        if name in self.unknown:
            return
        self.unknown.add(name)
        help = similar_help(name, (*sorted(self.keys), WAIT)) or USUAL
        self._report("unknown-step", word, f"the plate has no key `{name}`", help)

    def _report(self, slug: str, word: Word, message: str, help: str) -> None:
        self.findings.append(PROBLEMS[slug].at(word.span, message, help=help))
