"""The dialogue of `probe`, without a terminal: presses and typed words in, lines to say out.

First the maker presses each key in any order, and each press is taken to be of the key that should
be seen so. The key that it was may be named where that is wrong: from then on every key is asked
for in turn, as are those that were never seen.
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.bench.board import Board
from matrixgen.bench.netlist import NONE, Pairs
from matrixgen.bench.observe import Seen
from matrixgen.bench.suspects import Suspects

WORDS = "Enter: no response | skip | back | stop"

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
        self._named: set[int] = set()
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

    def begins(self) -> Iterator[str]:
        """Yield what to say first."""
        count = len(self.board.keys)
        if self._in_order:
            yield from self._next()
            return
        yield f"press each of the {count} keys once, in any order"
        yield "if another key is shown, type the name of the key you pressed"
        yield "when you have pressed all of them, type an empty line"

    def pressed(self, pairs: Pairs) -> Iterator[str]:
        """Take a press."""
        if self.asked is not None:
            yield self._reading(self.asked, pairs)
            self.seen[self.asked] = pairs
            yield from self._next()
            return
        keys = [key for key, healthy in enumerate(self._healthy) if healthy == pairs]
        if not keys:
            self._open, self._last = pairs, None
            yield f"{self.shown(pairs)}: no key should read like this. Type the name of the key"
            return
        self._last, self._open = keys[0], None
        self.seen[keys[0]] = pairs
        yield f"`{self.board.keys[keys[0]]}` ({len(self.seen)} of {len(self.board.keys)})"
        if len(self.seen) == len(self.board.keys):
            self.is_over = True

    def typed(self, text: str) -> Iterator[str]:
        """Take a line that was typed."""
        word = text.strip()
        if word == "stop":
            self.is_over = True
        elif self.asked is not None:
            yield from self._answered(word)
        elif not word:
            yield from self._next()
        elif word in self.board.place_of:
            yield from self._named_key(self.board.place_of[word])
        else:
            yield f"the file has no key `{word}`"

    def _named_key(self, key: int) -> Iterator[str]:
        """Take the name of the key that was really pressed last."""
        pairs = self._open
        if pairs is None and self._last is not None and self._last != key:
            pairs = self.seen.pop(self._last)
            self.seen = {one: self.seen[one] for one in self._named if one in self.seen}
        if pairs is None:
            yield "press the key first, then type its name"
            return
        is_mixed_up = self._open is None
        self.seen[key] = pairs
        self._named.add(key)
        self._open = self._last = None
        yield self._reading(key, pairs)
        if is_mixed_up:
            yield "keys are mixed up, so from here on each one is asked for"
            yield from self._next()

    def _answered(self, word: str) -> Iterator[str]:
        assert self.asked is not None
        if not word:
            self.seen[self.asked] = NONE
        elif word == "skip":
            self._skipped.add(self.asked)
        elif word == "back":
            self._go_back(self.asked)
        else:
            yield f"type one of: {WORDS}"
        yield from self._next()

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
