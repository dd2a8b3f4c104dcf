"""A file's controller on the bench: presses and typed lines go into a dialogue as they come."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from matrixgen.bench.dialogues.turning import TurningKnobs
from matrixgen.bench.serial.contacts import Contacts, Grounded
from matrixgen.bench.serial.port import Bench, chosen_port, open_port
from matrixgen.bench.serial.press import ClosedPairs, Presses
from matrixgen.boards import Mounted
from matrixgen.failure import Failure
from matrixgen.jobs.bench_events import BenchEvents, ContactsNow
from matrixgen.jobs.going_on import Closed, Dialogue, GoingOn
from matrixgen.jobs.kept_session import KeptSession
from matrixgen.model.prose import counted, quoted

STEADY_S = 0.3
"""How long the pins are watched before the first key, for what comes and goes."""

Say = Callable[[Iterable[str], dict[str, str]], None]
"""Shows lines, beside the plate with a mark at some keys."""


@contextmanager
def opened_bench(port: str | None) -> Iterator[Bench]:
    """Open a bench that has said everything once; raises `Failure`."""
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
        are kept for a command and a file, and for the chip. Raises `Failure` where the bench
        runs on none of the controllers.
        """
        self._bench = bench
        self.place, self.mounted = _of_chip(controllers, bench.heard.chip or "")
        self.pins = tuple(map(self._own_name, bench.heard.pins))
        self._contacts = Contacts(bench.heard.pins, self._watched(kept_for[0]))
        self._at_rest = self._contacts.see(_at_rest(bench))
        self._events = BenchEvents(bench, self._contacts, typed)
        self.kept = KeptSession(*kept_for, self.mounted.profile.chip)
        self.answers = bench.answers
        self._has_greeted = False

    @property
    def rest(self) -> ClosedPairs:
        """The pairs of pins that are closed while nothing is pressed, by the profile's names."""
        return self._own_names(self._at_rest)

    @property
    def broken_lines(self) -> int:
        """How many lines from the port were broken or lost."""
        return self._bench.heard.broken

    def _greets(self) -> Iterator[str]:
        """Yield what the bench is, and what is closed at rest, before whatever is said first."""
        if self._has_greeted:
            return
        self._has_greeted = True
        pins = counted(len(self._bench.heard.pins), "pin")
        closed = ", ".join(f"{low} > {read}" for low, read in sorted(self._at_rest)) or "nothing"
        yield f"{self._bench.heard.chip}, {pins}; closed while nothing is pressed: {closed}"

    def must_read(self, pins: Iterable[str], what: str) -> None:
        """Raise `Failure` where the bench does not read pins that the file has `what` on."""
        if deaf := [pin for pin in pins if pin not in self.pins]:
            raise Failure(
                f"the bench firmware does not read {quoted(deaf)}, on which the file has {what}",
                "load the bench firmware that matrixgen builds for the file's controller",
            )

    @property
    def on_ground(self) -> Grounded:
        """The pins that a knob may be on and that are on ground now, by the profile's names."""
        return frozenset(map(self._own_name, self._contacts.now))

    def turned(
        self, knobs: Sequence[str], in_file: Mapping[str, Sequence[str]], say: Say
    ) -> TurningKnobs:
        """Hold the dialogue about some knobs, of which the file has some on pins, before the keys.

        Raises `Failure` where the bench goes away, or does not read one of those pins.
        """
        self.must_read((pin for both in in_file.values() for pin in both), "a knob")
        turning = TurningKnobs(knobs, in_file, self.on_ground)
        if knobs:
            self._turn(turning, say)
        return turning

    def _turn(self, turning: TurningKnobs, say: Say) -> None:
        """Hold the dialogue until it is over or no more lines come."""
        events = self._events.of(Presses(self._at_rest), lambda: False)
        say([*self._greets(), *turning.begins()], {})
        while not turning.is_over and (event := next(events)) is not None:
            if isinstance(event, ContactsNow):
                names = frozenset(map(self._own_name, event.on_ground))
                turning.changed(names, meet=event.meet)
            elif isinstance(event, str):
                say(list(turning.typed(event)), {})
            else:
                say(list(turning.pressed(self._own_names(event.pairs))), {})

    def hold(self, own: Dialogue[Closed], read: Callable[[ClosedPairs], Closed], say: Say) -> None:
        """Hold a dialogue until it is over, or no more lines come. Raises `Failure`.

        `read` makes of a press, by the profile's names of pins, what the dialogue takes.
        """
        keys = [key.name.text for key in self.mounted.keyboard.keys]
        dialogue = GoingOn(own, self.kept, keys, self.pins)
        presses = Presses(self._at_rest)
        events = self._events.of(presses, lambda: own.is_unplugged)
        say([*self._greets(), *dialogue.begins()], own.marks)
        while not dialogue.is_over and (event := next(events)) is not None:
            if isinstance(event, str):
                said = dialogue.typed(event)
            elif isinstance(event, ContactsNow):
                continue
            else:
                said = dialogue.pressed(read(self._own_names(event.pairs)))
            say(list(said), own.marks)
            presses.joins = own.holds

    def _own_names(self, press: ClosedPairs) -> ClosedPairs:
        """Return pairs by the profile's names, whichever of a pin's names the bench says.

        What lights do to pins is left out.
        """
        pairs = ((self._own_name(low), self._own_name(read)) for low, read in press)
        others = self.mounted.light_pins  # a bench of the bare board looks at lights, too
        return frozenset(pair for pair in pairs if others.isdisjoint(pair))

    def _own_name(self, word: str) -> str:
        pin = self.mounted.profile.pin(word)
        return pin.name if pin else word

    def _watched(self, command: str) -> list[str]:
        """Return which of the bench's pins may have a knob's contact; none without knobs.

        To learn, that is any of them. A probe takes the file's word for wires: one that is on
        ground is their fault.
        """
        if not self.mounted.keyboard.knobs:
            return []
        taken = {one.pin.name for one in self.mounted.wired} if command == "probe" else set()
        taken |= self.mounted.light_pins
        return [pin for pin in self._bench.heard.pins if self._own_name(pin) not in taken]


def _of_chip(controllers: Iterable[Mounted], chip: str) -> tuple[int, Mounted]:
    """Return the controller that a bench runs on, and its place among those of the file."""
    every = list(controllers)
    for place, one in enumerate(every):
        if one.profile.chip.casefold() == chip.casefold():
            return place, one
    chips = quoted(dict.fromkeys(one.profile.chip for one in every), "or")
    raise Failure(
        f"the bench firmware runs on `{chip}`, but the file is for {chips}",
        "change the statement `controller`, or plug in the other board",
    )


def _at_rest(bench: Bench) -> ClosedPairs:
    end = time.monotonic() + STEADY_S
    while time.monotonic() < end:
        bench.listen()
    bench.states()
    return bench.closed
