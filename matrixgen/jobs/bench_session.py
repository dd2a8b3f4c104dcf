"""A file's controller on the bench: presses and typed lines go into a dialogue as they come."""

from __future__ import annotations

import os
import threading
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from queue import SimpleQueue

from matrixgen.bench.serial.port import Bench, chosen_port, open_port
from matrixgen.bench.serial.press import ClosedPairs, Presses
from matrixgen.bench.serial.protocol import BenchProblem
from matrixgen.boards import Mounted
from matrixgen.jobs.going_on import Closed, Dialogue, GoingOn
from matrixgen.jobs.kept_session import KeptSession
from matrixgen.model.prose import counted, quoted

STEADY_S = 0.3
"""How long the pins are watched before the first key, for what comes and goes."""

SessionEvent = ClosedPairs | str | None
"""A press, a line that was typed, or None where no more lines come."""

Say = Callable[[Iterable[str], dict[str, str]], None]
"""Shows lines, beside the plate with a mark at some keys."""


@contextmanager
def opened_bench(port: str | None) -> Iterator[Bench]:
    """Open a bench that has said everything once; raises `BenchProblem`."""
    name = chosen_port(port)
    line = open_port(name)
    try:
        bench = Bench(line, name)
        bench.start()
        yield bench
    finally:
        line.close()


class Session:
    """A bench that runs on a controller of a file, and what was closed before the first press."""

    def __init__(
        self,
        bench: Bench,
        controllers: Iterable[Mounted],
        typed: int | None,
        kept_for: tuple[str, Path],
    ) -> None:
        """Take what a bench said of itself, and the controllers of the file.

        `typed` is the file descriptor that lines are typed at, None where there is none. Answers
        are kept for a command and a file, and for the chip. Raises `BenchProblem` where the bench
        runs on none of the controllers.
        """
        self._bench, self._typed = bench, typed
        self.place, self.mounted = _of_chip(controllers, bench.heard.chip or "")
        self.pins = tuple(map(self._own_name, bench.heard.pins))
        self._at_rest = _at_rest(bench)
        self.kept = KeptSession(*kept_for, self.mounted.profile.chip)
        self.answers = bench.answers

    @property
    def rest(self) -> ClosedPairs:
        """The pairs of pins that are closed while nothing is pressed, by the profile's names."""
        return self._own_names(self._at_rest)

    @property
    def broken_lines(self) -> int:
        """How many lines from the port were broken or lost."""
        return self._bench.heard.broken

    @property
    def greeting(self) -> str:
        """What the bench is, and what is closed at rest."""
        pins = counted(len(self._bench.heard.pins), "pin")
        closed = ", ".join(f"{low} > {read}" for low, read in sorted(self._at_rest)) or "nothing"
        return f"{self._bench.heard.chip}, {pins}; closed while nothing is pressed: {closed}"

    def hold(self, own: Dialogue[Closed], read: Callable[[ClosedPairs], Closed], say: Say) -> None:
        """Hold a dialogue until it is over, or no more lines come. Raises `BenchProblem`.

        `read` makes of a press, by the profile's names of pins, what the dialogue takes.
        """
        keys = [key.name.text for key in self.mounted.keyboard.keys]
        dialogue = GoingOn(own, self.kept, keys, self.pins)
        presses = Presses(self._at_rest)
        events = _events(self._bench, presses, self._typed, lambda: dialogue.is_unplugged)
        say([self.greeting, *dialogue.begins()], dialogue.marks)
        while not dialogue.is_over and (event := next(events)) is not None:
            if isinstance(event, str):
                said = dialogue.typed(event)
            else:
                said = dialogue.pressed(read(self._own_names(event)))
            say(list(said), dialogue.marks)
            presses.joins = dialogue.holds

    def _own_names(self, press: ClosedPairs) -> ClosedPairs:
        """Return pairs by the profile's names, whichever of a pin's names the bench says.

        What lights and knobs do to pins is left out.
        """
        pairs = ((self._own_name(low), self._own_name(read)) for low, read in press)
        others = self.mounted.component_pins  # a bench of the bare board looks at lights, too
        return frozenset(pair for pair in pairs if others.isdisjoint(pair))

    def _own_name(self, word: str) -> str:
        pin = self.mounted.profile.pin(word)
        return pin.name if pin else word


def _of_chip(controllers: Iterable[Mounted], chip: str) -> tuple[int, Mounted]:
    """Return the controller that a bench runs on, and its place among those of the file."""
    every = list(controllers)
    for place, one in enumerate(every):
        if one.profile.chip.casefold() == chip.casefold():
            return place, one
    chips = quoted(dict.fromkeys(one.profile.chip for one in every), "or")
    raise BenchProblem(
        f"the bench firmware runs on `{chip}`, but the file is for {chips}",
        "change the statement `controller`, or plug in the other board",
    )


def _at_rest(bench: Bench) -> ClosedPairs:
    end = time.monotonic() + STEADY_S
    while time.monotonic() < end:
        bench.listen()
    bench.states()
    return bench.closed


def _events(
    bench: Bench, presses: Presses, typed: int | None, is_unplugged: Callable[[], bool]
) -> Iterator[SessionEvent]:
    """Yield presses at the bench and lines at the terminal, whichever comes first."""
    lines: SimpleQueue[str | None] = SimpleQueue()
    if typed is None:
        lines.put(None)
    else:
        threading.Thread(target=_pass_on, args=(typed, lines), daemon=True).start()
    while True:
        while not lines.empty():
            yield lines.get()
        try:
            bench.listen()
        except BenchProblem:
            if not is_unplugged():
                raise
            yield lines.get()  # nobody measures while power is on
        now_ms = time.monotonic() * 1000
        found = [presses.see(now_ms, state) for state in bench.states()]
        yield from (press for press in found if press is not None)


def _pass_on(typed: int, lines: SimpleQueue[str | None]) -> None:
    """Pass lines on, straight from the system: Python's reader holds a lock at the end."""
    rest = b""
    while data := os.read(typed, 4096):
        *whole, rest = (rest + data).split(b"\n")
        for line in whole:
            lines.put(line.decode("utf-8", "replace"))
    lines.put(None)
