"""How often the matrix is read, and how long a press takes to the host at worst."""

from __future__ import annotations

from matrixgen.boards import Mounted
from matrixgen.families import Cycles, Family
from matrixgen.model import (
    FirstSecond,
    InTurn,
    Matrix,
    OnceLayer,
    OnceModifiers,
    Pointer,
    TapHold,
)
from matrixgen.record import Record

POLL_US = 1000
"""How often a host asks: bInterval 1 at full speed, a frame (USB 2.0 section 5.7.4)."""

READ_AGAIN = 2
"""How often the line of a press is read once more (`LOOKS` in engine/matrix.c)."""

PACKET_US = 60
"""A report of 36 bytes on the bus at 12 Mbit/s with token, handshake and stuffing: 51 us, rounded
up (USB 2.0 section 8; calculated from memory of the packet formats)."""


LONG_SCAN_US = 40
"""A scan that takes longer is interrupted before each line, to read knobs: with all else of a turn,
a state of 208 us, of 600 steps a second with eight of them, is read even if its contact bounces at
first: where keys are one action together, one of 400 steps."""

DECIDED_LATER = (FirstSecond, OnceLayer, OnceModifiers, TapHold)


class Term(Record):
    """One part of a time, in microseconds."""

    name: str
    us: float


class Timing(Record):
    """A keyboard on a controller, asked for its times; `settle_us` is the wait after each line.

    The share of the program is counted in cycles of the emulated chip, as built by GCC
    (`Family.cycles`). It is None for a controller that no firmware can be built for.
    """

    mounted: Mounted
    matrix: Matrix
    settle_us: int

    @property
    def turn(self) -> tuple[Term, ...] | None:
        """The parts of one turn of the main loop, in which each line is read once."""
        family, profile = self.mounted.profile.family_record, self.mounted.profile
        if family is None or profile.port is None:
            return None
        cycles, lines, ports = family.cycles, len(self.matrix.drives), self._ports(family)
        us = 1e6 / profile.clock_hz
        scan = (
            Term("lines settle", lines * max(self.settle_us, cycles.least_wait(ports) * us)),
            Term("lines are read", lines * cycles.of_line(ports) * us),
        )
        between = lines if total(scan) > LONG_SCAN_US else 0
        rest = cycles.turn + self._in_turn(family) + self._shown_and_moved(cycles)
        return (*scan, Term("all else of a turn", rest * us), *self._knobs(cycles, between, us))

    def _knobs(self, cycles: Cycles, between: int, us: float) -> tuple[Term, ...]:
        """Return what it takes to read the knobs in a turn, and before so many lines of it."""
        keyboard = self.mounted.keyboard
        if not keyboard.knobs:
            return ()
        each = cycles.knobs + len(keyboard.knobs) * cycles.knob + between * cycles.knobs_between
        if keyboard.has(*DECIDED_LATER) or any(layer.together for layer in keyboard.layers):
            each += cycles.knobs_wait
        return (Term("knobs are read", each * us),)

    def _shown_and_moved(self, cycles: Cycles) -> int:
        """Return how many cycles lights and a pointer cost in each turn."""
        keyboard = self.mounted.keyboard
        lights = len(keyboard.wiring.lights) * cycles.light
        return lights + (cycles.pointer if keyboard.has(Pointer) else 0)

    def _in_turn(self, family: Family) -> int:
        """Return how many cycles it costs that keys type in turn, if some do."""
        return family.cycles.in_turn if self.mounted.keyboard.has(InTurn) else 0

    def _ports(self, family: Family) -> int:
        """Return how many ports the sensed lines are on, and one where they are on none."""
        pins = filter(None, map(self.mounted.pin_of, self.matrix.senses))
        places = filter(None, (family.place_of(pin.name) for pin in pins))
        return max(1, len({place.port for place in places}))

    @property
    def to_host(self) -> tuple[Term, ...] | None:
        """The parts of the worst time from a contact's closure to the report at the host."""
        turn = self.turn
        if turn is None:
            return None
        family = self.mounted.profile.family_record
        assert family
        cycles = family.cycles.press + self._in_turn(family)
        press = cycles * 1e6 / self.mounted.profile.clock_hz
        return (
            Term("until its line is read again", total(turn)),
            Term("lines settle, for two more readings", READ_AGAIN * self.settle_us),
            Term("these, action and report", press),
            Term("until the host asks", POLL_US),
            Term("on the cable", PACKET_US),
        )


def total(terms: tuple[Term, ...]) -> float:
    """Return the sum of some terms, in microseconds."""
    return sum(term.us for term in terms)
