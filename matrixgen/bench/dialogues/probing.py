"""The dialogue of `probe`, without a terminal: presses and typed words in, lines to say out.

First the maker presses each key in any order, and each press is taken to be of the key that should
be seen so. The key that it was may be named where that is wrong. Then the key that was shown is
asked for, once. If that one reads as it should, the name was a slip and is taken back; else keys
are mixed up, and from then on every key is asked for in turn, as are those that were never seen.
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.bench.dialogues.answers import MakerAnswers, command_in, words_of
from matrixgen.bench.faults.board import Board
from matrixgen.bench.faults.netlist import NONE, Pairs
from matrixgen.bench.faults.observe import Seen
from matrixgen.bench.faults.suspects import Suspects

COMMANDS = ("skip", "back", "stop")
WORDS = words_of(COMMANDS)

RIGHT, WRONG, ASKED = "+", "x", "?"
"""The marks on the plate: seen as it should be, seen otherwise, asked for."""


class Probing:
    """A probe under way. `asked` is the key that is asked for, None while any may be pressed."""

    def __init__(self, suspects: Suspects, rest: Pairs, *, in_order: bool = False) -> None:
        self.board: Board = suspects.board
        self.rest = rest
        self.seen: dict[int, Pairs] = {}
        self.asked: int | None = None
        self.is_over = False
        self._healthy = suspects.healthy
        self._last: int | None = None
        self._open: Pairs | None = None
        self._slip: tuple[int, Pairs] | None = None
        self._sure: set[int] = set()
        self._skipped: set[int] = set()
        self._in_order = in_order

    @property
    def result(self) -> Seen:
        """What was seen so far."""
        return Seen(self.rest, dict(self.seen))

    @property
    def marks(self) -> dict[str, str]:
        """What stands at each key of the plate: as it should be, otherwise, or asked for."""
        signs = {
            self.board.keys[key]: RIGHT if pairs == self._healthy[key] else WRONG
            for key, pairs in self.seen.items()
        }
        return signs if self.asked is None else signs | {self.board.keys[self.asked]: ASKED}

    @property
    def answers(self) -> MakerAnswers:
        """What was answered so far."""
        pins, names = self.board.pins, self.board.keys
        return MakerAnswers(
            closes={
                names[key]: frozenset((pins[low], pins[read]) for low, read in pairs)
                for key, pairs in self.seen.items()
            },
            sure=tuple(names[key] for key in sorted(self._sure)),
            skipped=tuple(names[key] for key in sorted(self._skipped)),
        )

    def take_up(self, answers: MakerAnswers) -> None:
        """Go on from what was answered in an earlier dialogue."""
        place, known = self.board.place_of, answers.of_keys(self.board.keys, self.board.pins)
        self.seen = {place[k]: self.board.numbers_of(pairs) for k, pairs in known.closes.items()}
        self._sure = {place[key] for key in known.sure}
        self._skipped = {place[key] for key in known.skipped}
        self.is_over = self._was_each_seen

    def begins(self) -> Iterator[str]:
        """Yield what to say first."""
        if self.is_over:
            return
        if self._in_order:
            yield from self._next()
            return
        left = len(self.board.keys) - len(self.seen)
        which = f"each of the {left} keys" if not self.seen else f"each of the {left} keys left"
        yield f"press {which} once, in any order"
        yield "if another key is shown, type the name of the key you pressed"
        yield "when you have pressed all of them, type an empty line"

    def pressed(self, pairs: Pairs) -> Iterator[str]:
        """Take a press."""
        if self.asked is None:
            yield from self._any_pressed(pairs)
            return
        key = self.asked
        yield self._reading(key, pairs)
        self.seen[key] = pairs
        self._sure.add(key)
        if self._slip is None:
            yield from self._next()
        else:
            yield from self._judge_slip(self._slip, key)

    def typed(self, text: str) -> Iterator[str]:
        """Take a line that was typed."""
        word = text.strip()
        if command_in(word, ("stop",), self.board.keys):
            self.is_over = True
        elif self.asked is not None:
            yield from self._answered(word)
        elif not word:
            yield from self._next()
        elif word in self.board.place_of:
            yield from self._named_key(self.board.place_of[word])
        else:
            yield f"the file has no key `{word}`"

    def _any_pressed(self, pairs: Pairs) -> Iterator[str]:
        """Take a press while any key may be pressed."""
        key = next((key for key, looks in enumerate(self._healthy) if looks == pairs), None)
        if key is None:
            self._open, self._last = pairs, None
            yield f"{self.shown(pairs)}: no key should read like this. Type the name of the key"
            return
        self._last, self._open = key, None
        name, is_again = self.board.keys[key], key in self.seen
        if not is_again:
            self.seen[key] = pairs
        again = ", again: if you pressed another key, type its name" if is_again else ""
        yield f"`{name}` ({len(self.seen)} of {len(self.board.keys)}){again}"
        self.is_over = self._was_each_seen and not is_again

    def _named_key(self, key: int) -> Iterator[str]:
        """Take the name of the key that was really pressed last."""
        shown, pairs = self._last, self._open
        self._open = self._last = None
        if pairs is None and (shown is None or shown == key):
            yield "press the key first, then type its name"
            return
        if shown is not None and shown not in self._sure:
            self._slip, self.asked = (key, self._healthy[shown]), shown
            yield f"press `{self.board.keys[shown]}` (itself now, to be sure; {WORDS})"
            return
        self.seen[key] = (pairs if shown is None else self._healthy[shown]) or NONE
        self._sure.add(key)
        yield self._reading(key, self.seen[key])
        self.is_over = self._was_each_seen

    def _judge_slip(self, slip: tuple[int, Pairs], asked: int) -> Iterator[str]:
        """Take the name that was typed for a press, or take it back, by how the shown key reads."""
        key, pairs = slip
        self._slip = None
        name, shown = self.board.keys[key], self.board.keys[asked]
        if self.seen.get(asked) == self._healthy[asked]:
            self.asked = None
            yield f"so `{name}` was a slip: the press before counts as `{shown}`, all else goes on"
            self.is_over = self._was_each_seen
            return
        self.seen = {one: seen for one, seen in self.seen.items() if one in self._sure}
        self.seen[key] = pairs
        self._sure.add(key)
        yield self._reading(key, pairs)
        yield "keys are mixed up, so from here on each one is asked for"
        yield from self._next()

    @property
    def _was_each_seen(self) -> bool:
        return len(self.seen) == len(self.board.keys)

    def _answered(self, word: str) -> Iterator[str]:
        asked = self.asked
        assert asked is not None
        command = command_in(word, COMMANDS, self.board.keys)
        if not word:
            self.seen[asked] = NONE
            self._sure.add(asked)
        elif command == "skip":
            self.seen.pop(asked, None)
            self._skipped.add(asked)
        elif command == "back":
            self._go_back(asked)
        else:
            yield f"type one of: {WORDS}"
            return
        if self._slip is None:
            yield from self._next()
        else:
            yield from self._judge_slip(self._slip, asked)

    def _go_back(self, asked: int) -> None:
        before = [key for key in range(asked) if key in self.seen or key in self._skipped]
        if before:
            self.seen.pop(before[-1], None)
            self._skipped.discard(before[-1])

    def _next(self) -> Iterator[str]:
        """Ask for the next key that was not seen yet; it is over where there is none."""
        left = [
            key
            for key in range(len(self.board.keys))
            if key not in self.seen and key not in self._skipped
        ]
        self.asked = left[0] if left else None
        self.is_over = not left
        if left:
            yield f"press `{self.board.keys[left[0]]}` ({WORDS})"

    def _reading(self, key: int, pairs: Pairs) -> str:
        name, healthy = self.board.keys[key], self._healthy[key]
        if pairs == healthy:
            return f"`{name}`: as it should be"
        others = [self.board.keys[one] for one, looks in enumerate(self._healthy) if looks == pairs]
        place = f", which is where `{others[0]}` should be" if others else ""
        return f"`{name}`: {self.shown(pairs)}{place}"

    def shown(self, pairs: Pairs) -> str:
        """Return pairs of pins as a person reads them."""
        pins = self.board.pins
        return ", ".join(f"{pins[low]} > {pins[read]}" for low, read in sorted(pairs)) or "nothing"
