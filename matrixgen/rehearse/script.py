"""A script: what fingers do, in words.

`+Key` presses a key of the plate, `-Key` lets it go, `Key` alone taps it, `turn volume right 3`
turns a knob by three steps, and `volume.right` by one; `wait 200` lets 200 ms pass, and
`light CapsLock` lets the computer turn that light on, or off. Several stand on a line; `#` starts a
comment.
"""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Iterator, Set

from matrixgen.computer.setting import layout_of
from matrixgen.model import LOCKS, Diagnostic, Keyboard, Knob, SourceText, Span, Word
from matrixgen.model.knob import WAYS
from matrixgen.model.prose import quoted
from matrixgen.record import Record
from matrixgen.rehearse.keys_that_type import keys_that_type
from matrixgen.rehearse.problems import PROBLEMS
from matrixgen.similar import similar_help

WAIT, UNIT, TURN, LIGHT = "wait", "ms", "turn", "light"
LONGEST_WAIT_MS = 60_000
MOST_STEPS = 1000
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


class KnobTurn(Record):
    """A knob turns by some steps: `way` is 1 to the right and -1 to the left."""

    knob: str
    way: int
    steps: int


class Tell(Record):
    """The computer turns the light of a lock on, or off if it is on."""

    lock: str


Step = Move | Tap | Wait | KnobTurn | Tell


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


def _turns(knob: Knob) -> Iterator[tuple[str, KnobTurn]]:
    """Yield both steps of a knob by their names."""
    for step, way in zip(knob.steps, (-1, 1), strict=True):
        yield step, KnobTurn(knob.name.text, way, 1)


class _Reader:
    """Reads lines of words, and knows which keys they leave down.

    An unknown name is reported once, however often it is written.
    """

    def __init__(self, keyboard: Keyboard, down: Set[str]) -> None:
        self.keys = {key.name.text for key in keyboard.keys}
        self.knobs = [knob.name.text for knob in keyboard.knobs]
        self.turns = {step: turn for knob in keyboard.knobs for step, turn in _turns(knob)}
        self.layout = layout_of(keyboard)
        self.of_usage = keys_that_type(keyboard).of_usage if self.layout else {}
        self.down = set(down)
        self.unknown: set[str] = set()
        self.findings: list[Diagnostic] = []

    def line(self, words: list[Word]) -> Iterator[Step]:
        rest = deque(words)
        while rest:
            word = rest.popleft()
            step = self._step(word, rest)
            if step is not None:
                yield step

    def _step(self, word: Word, rest: deque[Word]) -> Step | None:
        """Read one step; a key that is called as a word of scripts comes first."""
        if word.text in self.turns:
            return self.turns[word.text]
        readers = {WAIT: self._wait, TURN: self._turn, LIGHT: self._light}
        read = readers.get(word.text) if word.text not in self.keys else None
        return read(word, rest) if read else self._key(word)

    def _turn(self, word: Word, rest: deque[Word]) -> Step | None:
        """Read the knob after a `turn`, which way it turns, and by how many steps."""
        knob = rest.popleft() if rest else word
        if knob is word or knob.text not in self.knobs:
            return self._report_turn(knob, "no knob of the plate")
        way = rest.popleft() if rest else knob
        if way.text not in WAYS:
            return self._report_turn(way, "neither `left` nor `right`")
        number = rest.popleft() if rest and self._is_number(rest[0].text) else None
        steps = number.text if number else "1"
        if not (steps.isascii() and steps.isdigit() and 1 <= int(steps[:9]) <= MOST_STEPS):
            return self._report_turn(number or way, f"no number of steps from 1 to {MOST_STEPS}")
        return KnobTurn(knob.text, 1 if way.text == WAYS[1] else -1, int(steps))

    def _is_number(self, text: str) -> bool:
        """Whether that is how far a knob turns, even where a key has the name."""
        return text.isdigit() or (text[0].isdigit() and not self._is_step(text))

    def _report_turn(self, word: Word, what: str) -> Step | None:
        knob = self.knobs[0] if self.knobs else "KNOB"
        message = f"`{word}` is {what}" if word.text != TURN else "`turn` has no knob after it"
        help = f"write which knob turns, which way and how far, as in `turn {knob} right 3`"
        helps = help if self.knobs else "the plate has no knob"
        return self._report("bad-turn", word, message, helps)

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
        return self._report("bad-wait", time, message, help)

    def _light(self, word: Word, rest: deque[Word]) -> Step | None:
        """Read which light the computer turns on or off."""
        lock = rest.popleft() if rest else word
        if lock.text in LOCKS:
            return Tell(lock.text)
        message = f"a computer turns no light `{lock}` on"
        if lock is word:
            message = "`light` has no lock after it"
        return self._report("unknown-step", lock, message, f"there is {quoted(LOCKS, 'or')}")

    def _is_step(self, text: str) -> bool:
        if text in (WAIT, TURN) or text in self.turns or self._called(text):
            return True
        return text[0] in "+-" and self._called(text[1:]) is not None

    def _key(self, word: Word) -> Step | None:
        sign, name = word.text[:1], word.text[1:]
        if key := self._called(word.text):
            return self._press(word, Tap(key))
        if sign in "+-" and (key := self._called(name)):
            return self._press(word, Move(key, True)) if sign == "+" else self._let_go(word, key)
        return self._report_unknown(word, name if sign in "+-" and name else word.text)

    def _called(self, name: str) -> str | None:
        """Return the key of that name, or else the one that carries a letter or sign."""
        if name in self.keys or self.layout is None:
            return name if name in self.keys else None
        usage = self.layout.switch_of(name)
        return None if usage is None else self.of_usage.get(usage)

    def _press(self, word: Word, step: Tap | Move) -> Step | None:
        key = step.key
        if key in self.down:
            help = f"`-{key}` releases it"
            return self._report("key-already-down", word, f"`{key}` is down", help)
        if isinstance(step, Move):
            self.down.add(key)
        return step

    def _let_go(self, word: Word, key: str) -> Step | None:
        if key not in self.down and self.unknown:
            return None  # it may be the one whose name was misspelt when it was pressed
        if key not in self.down:
            help = f"`+{key}` presses it, `{key}` by itself taps it"
            return self._report("key-not-down", word, f"`{key}` is not down", help)
        self.down.remove(key)
        return Move(key, False)

    def _report_unknown(self, word: Word, name: str) -> Step | None:
        if name in self.unknown:
            return None
        self.unknown.add(name)
        words = (*sorted(self.keys), *self.turns, WAIT)
        help = similar_help(name, words) or USUAL
        return self._report("unknown-step", word, f"the plate has no key `{name}`", help)

    def _report(self, slug: str, word: Word, message: str, help: str) -> Step | None:
        """Report what is wrong with a word, of which comes no step."""
        self.findings.append(PROBLEMS[slug].at(word.span, message, help=help))
        return None
