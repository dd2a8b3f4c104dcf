"""A computer with a layout, which writes a text from a keyboard's reports and tells its locks.

It is what `templates/sheet/press/text.js` does in a page. A key that is held does not repeat, and
with Ctrl, Alt or GUI down it is a shortcut that does nothing here.
"""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.computer.text_field import TextField
from matrixgen.layouts import HostLayout
from matrixgen.layouts.marks import is_dead_mark, spacing_of
from matrixgen.layouts.strokes import level_of
from matrixgen.usages.us_layout import (
    BREAKS,
    CAPS_LOCK,
    EDITS,
    NUM_LOCK,
    NUMBERS,
    NUMBERS_ELSE,
)

NUM_LOCK_LED, CAPS_LOCK_LED = 0x01, 0x02
"""Their bits of the output report (HID 1.11 appendix B.1)."""

LOCK_KEYS = {CAPS_LOCK: CAPS_LOCK_LED, NUM_LOCK: NUM_LOCK_LED}

TAB = 0x2B


class TypingComputer:
    """The computer at the other end, from when it was switched on."""

    def __init__(self, layout: HostLayout) -> None:
        self.field = TextField()
        self.caps_lock = False
        self.num_lock = True  # as most computers start; common practice, no source
        self._layout = layout
        self._dead: str | None = None
        self._down: tuple[int, ...] = ()

    @property
    def leds(self) -> int:
        """The output report."""
        return NUM_LOCK_LED * self.num_lock | CAPS_LOCK_LED * self.caps_lock

    @property
    def waits(self) -> str | None:
        """The sign of a dead key that waits for the next key, if one does."""
        return spacing_of(self._dead) if self._dead else None

    def turn(self, led: int) -> bool:
        """Turn the lock of a bit of the output report on, or off; false if it has none."""
        if led == CAPS_LOCK_LED:
            self.caps_lock = not self.caps_lock
        elif led == NUM_LOCK_LED:
            self.num_lock = not self.num_lock
        return led in (CAPS_LOCK_LED, NUM_LOCK_LED)

    def take(self, modifiers: int, usages: Iterable[int]) -> str:
        """Let a report arrive; return what it writes: what has newly gone down is typed."""
        down = tuple(usages)
        written = [self._press(usage, modifiers) for usage in down if usage not in self._down]
        self._down = down
        return "".join(written)

    def _press(self, usage: int, modifiers: int) -> str:
        if usage in LOCK_KEYS:
            self.turn(LOCK_KEYS[usage])
            return ""
        written = self._type(usage, modifiers)
        self.field.insert(written)
        return written

    def _type(self, usage: int, modifiers: int) -> str:
        """Return what a key writes; one that writes nothing may do something else to the text."""
        level = level_of(modifiers, self._layout.system)
        dead, self._dead = self._dead, None
        if usage in NUMBERS and (level == 1 or not self.num_lock):
            return self._other(NUMBERS_ELSE.get(usage, 0), level)
        mark = None if level is None else self._layout.mark(usage, level, self.caps_lock)
        if mark is None:
            return self._other(usage, level)
        if dead is not None:
            return self._layout.pair(dead, mark)
        if is_dead_mark(mark):
            self._dead = mark
            return ""
        return mark

    def _other(self, usage: int, level: int | None) -> str:
        """Return the break of a line or a tab that a key writes, or let it edit the text."""
        if level not in (0, 1):
            return ""
        if usage in BREAKS:
            return "" if usage == TAB and level else BREAKS[usage]
        if usage in EDITS:
            self.field.edit(EDITS[usage])
        return ""
