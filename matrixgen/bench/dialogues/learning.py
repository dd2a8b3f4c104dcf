"""The dialogue of `learn`, without a terminal: presses and typed words in, lines to say out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.bench.dialogues.answers import MakerAnswers, command_in, words_of
from matrixgen.bench.dialogues.learn import Doubt, doubt_of, remark_of, without
from matrixgen.bench.serial.press import ClosedPairs, pins_of

COMMANDS = ("skip", "back", "again", "stop")
WORDS = words_of(COMMANDS)
NOTHING: ClosedPairs = frozenset()


class Learning:
    """Keys that are asked for one after the other; `presses` has what each closed so far."""

    holds = is_unplugged = False

    def __init__(self, keys: Sequence[str]) -> None:
        self._keys = list(keys)
        self._at: int | None = 0 if keys else None
        self._skipped: set[str] = set()
        self._undo: list[tuple[str, ClosedPairs | None]] = []
        self._doubted: ClosedPairs | None = None
        self.presses: dict[str, ClosedPairs] = {}

    @property
    def asked(self) -> str | None:
        """The key that is asked for, None once it is over."""
        return None if self._at is None else self._keys[self._at]

    @property
    def is_over(self) -> bool:
        """Whether nothing more is asked."""
        return self._at is None

    @property
    def missing(self) -> list[str]:
        """The keys that were not pressed."""
        return [key for key in self._keys if key not in self.presses]

    @property
    def marks(self) -> dict[str, str]:
        """What stands at each key of the plate: `+` learned, `x` odd, `?` asked for."""
        signs = {key: "x" if self._says_of(key) else "+" for key in self.presses}
        return signs if self.asked is None else signs | {self.asked: "?"}

    @property
    def answers(self) -> MakerAnswers:
        """What was answered so far."""
        return MakerAnswers(closes=dict(self.presses), skipped=tuple(sorted(self._skipped)))

    def take_up(self, answers: MakerAnswers) -> None:
        """Go on from what was answered in an earlier dialogue, with the first key that is left."""
        self.presses, self._skipped = dict(answers.closes), set(answers.skipped)
        self._at = self._first_open(0)

    def begins(self) -> Iterator[str]:
        """Yield what to say first."""
        yield "the soldering order cannot be measured: wires visit keys in the order of the plate"
        yield from self._ask()

    def pressed(self, press: ClosedPairs) -> Iterator[str]:
        """Take a press as that of the key that is asked for, unless it is more likely another's."""
        key = self.asked
        if key is None:
            return
        doubt = doubt_of(press, without(self.presses, key))
        if doubt and press != self._doubted:
            self._doubted = press
            yield _again(doubt, key)
            return
        self._answer(key, press)
        remark = self._says_of(key)
        pins = sorted(pins_of(press))
        how = ", both ways: no diode" if len(press) == 2 and len(pins) == 2 else ""
        yield f"`{key}` {remark}" if remark else f"`{key}`: {' and '.join(pins)}{how}"
        yield from self._go_to(self._first_open(self._keys.index(key) + 1))

    def typed(self, text: str) -> Iterator[str]:
        """Take a line that was typed: a command, a key to ask for now, or nothing."""
        word, key = text.strip(), self.asked
        command = command_in(word, COMMANDS, self._keys)
        if key is None or command == "stop":
            self._at = None
        elif not word:
            yield from self.pressed(NOTHING)
        elif command == "skip":
            self._answer(key, None)
            yield from self._go_to(self._first_open(self._keys.index(key) + 1))
        elif command == "back":
            yield from self._go_to(max(self._keys.index(key) - 1, 0))
        elif command == "again":
            yield from self._take_back()
        elif word in self._keys:
            yield from self._go_to(self._keys.index(word))
        else:
            yield f"the file has no key `{word}`; type a key's name to press that one, or {WORDS}"

    def _answer(self, key: str, press: ClosedPairs | None) -> None:
        """Take the answer for a key; None is that it was passed over."""
        self._undo.append((key, self.presses.pop(key, None)))
        self._skipped.discard(key)
        if press is None:
            self._skipped.add(key)
        else:
            self.presses[key] = press

    def _take_back(self) -> Iterator[str]:
        """Take the last answer back, and ask for its key again."""
        if not self._undo:
            yield "nothing was pressed yet"
            yield from self._ask()
            return
        key, before = self._undo.pop()
        self._skipped.discard(key)
        self.presses.pop(key, None)
        if before is not None:
            self.presses[key] = before
        yield from self._go_to(self._keys.index(key))

    def _first_open(self, start: int) -> int | None:
        """Return the first key without an answer, from one on; None where there is none."""
        around = [*range(start, len(self._keys)), *range(start)]
        done = {*self.presses, *self._skipped}
        return next((at for at in around if self._keys[at] not in done), None)

    def _go_to(self, at: int | None) -> Iterator[str]:
        self._at, self._doubted = at, None
        yield from self._ask()

    def _says_of(self, key: str) -> str | None:
        remark = remark_of(key, self.presses[key], without(self.presses, key))
        return remark.says if remark else None

    def _ask(self) -> Iterator[str]:
        if self.asked is not None:
            yield f"press `{self.asked}` ({WORDS})"


def _again(doubt: Doubt, key: str) -> str:
    """Return the question whether a press was of the key that is asked for."""
    if doubt.same_as:
        seen = f"that reads the same as `{doubt.same_as}`: pressed again?"
    else:
        held = " and ".join(f"`{one}`" for one in doubt.keys_held)
        seen = f"that connects {doubt.pins} pins at once: two keys held{held and f' ({held})'}?"
    return f"{seen} Let go, then press `{key}` alone"
