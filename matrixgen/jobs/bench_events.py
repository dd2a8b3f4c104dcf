"""What comes while a keyboard is on the bench: presses, contacts of knobs, and typed lines."""

from __future__ import annotations

import os
import threading
import time
from collections.abc import Callable, Iterator
from queue import SimpleQueue

from matrixgen.bench.serial.contacts import Contacts, Grounded
from matrixgen.bench.serial.port import Bench
from matrixgen.bench.serial.press import ClosedPairs, Presses
from matrixgen.failure import Failure
from matrixgen.record import Record


class Pressed(Record):
    """A press, and what it joins."""

    pairs: ClosedPairs


class ContactsNow(Record):
    """Which pins are on ground from now on, and whether two that were are joined to each other."""

    on_ground: Grounded
    meet: bool


BenchEvent = Pressed | ContactsNow | str | None
"""What was done, a line that was typed, or None where no more lines come."""


class BenchEvents:
    """Waits for a bench and for typed lines; one thread waits for those, however often it is asked.

    `typed` is the file descriptor that lines are typed at, None where there is none.
    """

    def __init__(self, bench: Bench, contacts: Contacts, typed: int | None) -> None:
        self._bench, self._contacts, self._typed = bench, contacts, typed
        self._lines: SimpleQueue[str | None] | None = None

    def of(self, presses: Presses, is_unplugged: Callable[[], bool]) -> Iterator[BenchEvent]:
        """Yield presses at the bench and lines at the terminal, whichever comes first."""
        lines = self._typed_lines()
        while True:
            while not lines.empty():
                yield lines.get()
            try:
                self._bench.listen()
            except Failure:
                if not is_unplugged():
                    raise
                yield lines.get()  # nobody measures while power is on
            yield from self._seen(presses, time.monotonic() * 1000)

    def _seen(self, presses: Presses, now_ms: float) -> list[BenchEvent]:
        """Return what came from the bench."""
        found: list[BenchEvent] = []
        for state in self._bench.states():
            before = self._now()
            keys = self._contacts.see(state)
            presses.forget(self._contacts.known)
            if self._now() != before:
                found.append(self._now())
            if (press := presses.see(now_ms, keys)) is not None:
                found.append(Pressed(press))
        return found

    def _now(self) -> ContactsNow:
        return ContactsNow(self._contacts.now, self._contacts.meet)

    def _typed_lines(self) -> SimpleQueue[str | None]:
        """Return the lines that are typed from now on."""
        if self._lines is None:
            self._lines = SimpleQueue()
            if self._typed is None:
                self._lines.put(None)
            else:
                waits = (self._typed, self._lines)
                threading.Thread(target=_pass_on, args=waits, daemon=True).start()
        return self._lines


def _pass_on(typed: int, lines: SimpleQueue[str | None]) -> None:
    """Pass lines on, straight from the system: Python's reader holds a lock at the end."""
    rest = b""
    while data := os.read(typed, 4096):
        *whole, rest = (rest + data).split(b"\n")
        for line in whole:
            lines.put(line.decode("utf-8", "replace"))
    lines.put(None)
