"""A key that types one thing after the other: a text, or several presses."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from zlib import crc32

from matrixgen.model.actions.behaviour import Behaviour, PressWords, by_place
from matrixgen.record import Record
from matrixgen.usages.key_stroke import KeyStroke


class Struck(Record):
    """One press, such as `Ctrl+K`."""

    stroke: KeyStroke

    @property
    def phrase(self) -> str:
        """Modifiers and key as one word."""
        return by_place(self.stroke)


class Typed(Record):
    """A text, and how the computer's layout types it."""

    text: str
    strokes: tuple[KeyStroke, ...]

    @property
    def phrase(self) -> str:
        """`type "TEXT"`."""
        quoted = self.text.replace("\\", "\\\\").replace('"', '\\"')
        return f'type "{quoted}"'


class Pause(Record):
    """Nothing, for some milliseconds: a multiple of ten, at most 2550."""

    ms: int

    @property
    def phrase(self) -> str:
        """`wait N ms`."""
        return f"wait {self.ms} ms"


TurnStep = Struck | Typed | Pause


class InTurn(Behaviour):
    """Each step is done after the one before; what else is pressed waits until all are done.

    It may be long and in every cell, so it is compared as a text and a row of bytes.
    """

    steps: tuple[TurnStep, ...]

    @cached_property
    def _signature(self) -> tuple[str, bytes]:
        """All that it says."""
        strokes = (number for one in self.strokes for number in (one.usage, one.modifiers))
        return self.phrase, bytes(strokes)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, InTurn):
            return NotImplemented
        return self is other or self._signature == other._signature

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        """The same in each process, since it goes from one to another with the action."""
        phrase, strokes = self._signature
        return crc32(strokes, crc32(phrase.encode()))

    def said(self, words: PressWords) -> str:
        """Return the steps, `, then` between them."""
        struck = (
            words(step.stroke) if isinstance(step, Struck) else step.phrase for step in self.steps
        )
        return ", then ".join(struck)

    @property
    def moves(self) -> Iterator[KeyStroke | Pause]:
        """Yield every stroke and wait in turn."""
        for step in self.steps:
            match step:
                case Typed():
                    yield from step.strokes
                case Struck():
                    yield step.stroke
                case Pause():
                    yield step

    @property
    def strokes(self) -> tuple[KeyStroke, ...]:
        """Every stroke, without the waits."""
        return tuple(move for move in self.moves if not isinstance(move, Pause))

    def lasts_ms(self, pace_ms: int) -> int:
        """Return how long it takes at most: two reports for each stroke, and the waits.

        Caps Lock counts twice where there is a text.
        """
        strokes = len(self.strokes) + (2 if self.types_text else 0)
        waits = sum(move.ms for move in self.moves if isinstance(move, Pause))
        return strokes * 2 * pace_ms + waits

    @property
    def types_text(self) -> bool:
        """Whether Caps Lock would change what it types."""
        return any(isinstance(step, Typed) for step in self.steps)
