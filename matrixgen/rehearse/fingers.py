"""From letters that are typed at a terminal to moves of the plate's keys.

A terminal tells that a letter was typed, and neither that its key went down nor that it was let
go. So a typed key is down for a short time and let go by itself, or, if it is asked for, stays down
until it is typed again.
"""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.model import Keyboard, Press, with_parts
from matrixgen.record import Record
from matrixgen.rehearse.plan import TAP_MS, Planner
from matrixgen.rehearse.rehearsal import Rehearsal
from matrixgen.rehearse.script import Move, Step, Tap, read_script
from matrixgen.usages import modifier_bit, usage_of, word_of
from matrixgen.usages.us_layout import usages_of_sign

TYPED_MS = 60
MOST_PLANNED = 12
"""Moves that may be ahead: a letter that repeats faster than it can be typed is not heeded."""

_SHIFTS = modifier_bit(0xE1) | modifier_bit(0xE5)


class Stroke(Record):
    """A key by its usage, with Shift or without."""

    usage: int
    shift: bool = False


def strokes_of(letter: str) -> list[Stroke]:
    """Return what types a letter or sign on a US layout, then on a keypad; nothing where none.

    The keypad is for plates that have no others of its signs.
    """
    return [Stroke(usage, shift) for usage, shift in usages_of_sign(letter)]


def strokes_of_key(word: str, *, shift: bool = False) -> list[Stroke]:
    """Return the key that a word names, and for Enter the keypad's as well."""
    words = (word, "KeypadEnter") if word == "Enter" else (word,)
    usages = (usage_of(one) for one in words)
    return [Stroke(usage, shift) for usage in usages if usage is not None]


class Fingers:
    """What moves the keys of a rehearsal; `stay` where typed keys are to stay down."""

    def __init__(self, rehearsal: Rehearsal) -> None:
        self.keyboard = rehearsal.machine.keyboard
        self.stay = False
        self.down: set[str] = set()
        self._rehearsal = rehearsal
        self._planner = Planner(self.keyboard)
        self._keys = _keys_by_usage(self.keyboard)
        self._shift = _shift_of(self.keyboard)

    def type(self, strokes: Iterable[Stroke]) -> str | None:
        """Let the first of these keys be typed that the plate has; return why not, or None."""
        stroke = next((one for one in strokes if one.usage in self._keys), None)
        if stroke is None:
            return "no key of the plate has that name"
        if stroke.shift and self._shift is None:
            return "the plate has no key Shift"
        if len(self._rehearsal.planned) < MOST_PLANNED:
            shift = self._shift if stroke.shift else None
            self._plan(self._steps(self._keys[stroke.usage], shift), TYPED_MS)
        return None

    def play(self, text: str) -> str | None:
        """Let the steps of a line of a script happen; return what is wrong with it, or None."""
        steps, findings = read_script("", text, self.keyboard, self.down)
        if findings:
            return "; ".join([findings[0].message, *findings[0].helps])
        self._plan(steps, TAP_MS)
        return None

    def _steps(self, key: str, shift: str | None) -> list[Step]:
        """Return what types a key; one that is down is let go, as is a Shift that it needs."""
        if key in self.down:
            keys = [one for one in (key, shift) if one in self.down]
            return [Move(one, False) for one in keys if one]
        around = shift if shift not in self.down else None
        if self.stay:
            return [*([Move(around, True)] if around else []), Move(key, True)]
        if around is None:
            return [Tap(key)]
        return [Move(around, True), Tap(key), Move(around, False)]

    def _plan(self, steps: Iterable[Step], tap_ms: int) -> None:
        self._planner.begin_at(self._rehearsal.now_ms)
        moves = list(self._planner.moves(steps, tap_ms))
        self._planner.at_ms = self._planner.free_ms  # a `wait` that nothing follows is over
        for move in moves:
            self.down ^= {move.key}
        self._rehearsal.plan(moves)


def _keys_by_usage(keyboard: Keyboard) -> dict[int, str]:
    """Return the first key of the plate for each usage: by its name, or else by its base layer."""
    found: dict[int, str] = {}
    for key in keyboard.keys:
        if key.own_action:
            for usage in key.own_action.sends:
                found.setdefault(usage, key.name.text)
    for cell in keyboard.layers[0].cells:
        for part in with_parts(cell.action):
            for usage in part.sends:
                if part.phrase == word_of(usage):
                    found.setdefault(usage, cell.key.text)
    return found


def _shift_of(keyboard: Keyboard) -> str | None:
    shifts = (
        key.name.text
        for key in keyboard.keys
        if isinstance(own := key.own_action, Press) and not own.usage and own.modifiers & _SHIFTS
    )
    return next(shifts, None)
