"""From letters that are typed at a terminal to moves of the plate's keys.

A terminal tells that a letter was typed, and neither that its key went down nor that it was let
go. So a typed key is down for a short time and let go by itself, or, if it is asked for, stays down
until it is typed again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from matrixgen.layouts import HostLayout
from matrixgen.layouts.host_layout import Way
from matrixgen.layouts.ranks import KEYPAD
from matrixgen.record import Record
from matrixgen.rehearse.happening import KeyMoved
from matrixgen.rehearse.keys_that_type import keys_that_type
from matrixgen.rehearse.plan import TAP_MS, Planner
from matrixgen.rehearse.rehearsal import Rehearsal
from matrixgen.rehearse.script import Move, Step, Tap, read_script
from matrixgen.usages import modifier_bit, modifier_names, usage_of
from matrixgen.usages.key_stroke import KeyStroke
from matrixgen.usages.us_layout import usages_of_sign

TYPED_MS = 60
MOST_PLANNED = 12
"""Moves that may be ahead: a letter that repeats faster than it can be typed is not heeded."""

_SHIFT = modifier_bit(0xE1)
_SHIFTS = _SHIFT | modifier_bit(0xE5)


def ways_to(letter: str, layout: HostLayout | None) -> list[Way]:
    """Return what types a letter or sign, the best way first, of one stroke or of several.

    Those are the ways of a US layout where there is no other. The keypad comes last: it is for
    plates that have no others of its signs.
    """
    if layout is None:
        return [(_with_shift(usage, shift=shift),) for usage, shift in usages_of_sign(letter)]
    way = layout.way(letter)
    keypad = (usage for usage in KEYPAD if layout.mark(usage, 0) == letter)
    return [*([way] if way else []), *((KeyStroke(usage),) for usage in keypad)]


def ways_to_key(word: str, *, shift: bool = False) -> list[Way]:
    """Return the key that a word names, and for Enter the keypad's as well."""
    words = (word, "KeypadEnter") if word == "Enter" else (word,)
    usages = (usage_of(one) for one in words)
    return [(_with_shift(usage, shift=shift),) for usage in usages if usage is not None]


def _with_shift(usage: int, *, shift: bool) -> KeyStroke:
    return KeyStroke(usage, _SHIFT if shift else 0)


class Finger(Record):
    """A key of the plate for a stroke, and those that are held around it."""

    key: str
    around: tuple[str, ...]


class Fingers:
    """What moves the keys of a rehearsal; `stay` where typed keys are to stay down."""

    def __init__(self, rehearsal: Rehearsal) -> None:
        self.keyboard = rehearsal.machine.keyboard
        self.stay = False
        self.down: set[str] = set()
        self._rehearsal = rehearsal
        self._planner = Planner(self.keyboard)
        self._keys = keys_that_type(self.keyboard)

    def type(self, ways: Iterable[Way]) -> str | None:
        """Let the first way be typed that the plate has keys for; return why not, or None."""
        has_keys = (way for way in ways if all(self._key_of(one) for one in way))
        way = next(has_keys, None)
        if way is None:
            return "no key of the plate has that name"
        fingers = [self._finger(one) for one in way]
        missing = next((one for one in fingers if isinstance(one, str)), None)
        if missing is not None:
            return f"the plate has no key {missing}"
        if len(self._rehearsal.planned) < MOST_PLANNED:
            for one in fingers:
                assert isinstance(one, Finger)
                self._plan(self._steps(one), TYPED_MS)
        return None

    def _key_of(self, stroke: KeyStroke) -> str | None:
        return self._keys.of_stroke.get(stroke) or self._keys.of_usage.get(stroke.usage)

    def _finger(self, stroke: KeyStroke) -> Finger | str:
        """Return what types a stroke, or the modifier that the plate has no key for."""
        if key := self._keys.of_stroke.get(stroke):
            return Finger(key, ())
        around = []
        for name, bits in _held(stroke.modifiers):
            keys = self._keys.modifiers.items()
            held = next((key for bit, key in keys if bit & bits), None)
            if held is None:
                return name
            around.append(held)
        return Finger(self._keys.of_usage[stroke.usage], tuple(around))

    def play(self, text: str) -> str | None:
        """Let the steps of a line of a script happen; return what is wrong with it, or None."""
        steps, findings = read_script("", text, self.keyboard, self.down)
        if findings:
            return "; ".join([findings[0].message, *findings[0].helps])
        self._plan(steps, TAP_MS)
        return None

    def _steps(self, finger: Finger) -> list[Step]:
        """Return what types a key; one that is down is let go, and so is what is held for it."""
        if finger.key in self.down:
            keys = [one for one in (finger.key, *finger.around) if one in self.down]
            return [Move(one, False) for one in keys]
        around = [one for one in finger.around if one not in self.down]
        pressed = [Move(one, True) for one in around]
        if self.stay:
            return [*pressed, Move(finger.key, True)]
        return [*pressed, Tap(finger.key), *(Move(one, False) for one in reversed(around))]

    def _plan(self, steps: Iterable[Step], tap_ms: int) -> None:
        self._planner.begin_at(self._rehearsal.now_ms)
        moves = list(self._planner.moves(steps, tap_ms))
        self._planner.at_ms = self._planner.free_ms  # a `wait` that nothing follows is over
        for move in moves:
            if isinstance(move, KeyMoved):
                self.down ^= {move.key}
        self._rehearsal.plan(moves)


def _held(modifiers: int) -> Iterator[tuple[str, int]]:
    """Yield each modifier by its word, with the bits of those that are as good: Shift has two."""
    for bit in (1 << place for place in range(8)):
        if modifiers & bit:
            yield modifier_names(bit)[0], _SHIFTS if bit & _SHIFTS else bit
