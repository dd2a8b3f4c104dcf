"""A bench on a pseudo-terminal: a board's netlist with faults, which says what a real one would."""

from __future__ import annotations

import os
import select
import threading
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from matrixgen.bench.faults.netlist import Netlist
from tests.firmware.turning import contacts_at
from tests.pseudo_port import PseudoPort

WAIT_S = 0.01


@dataclass
class Knob:
    """A knob as it is soldered: the pins that its legs A and B are on, None for a cold joint.

    `place` counts its states to the right. `stuck` is a pin that touches ground. Without
    `has_ground` its middle leg is on nothing; with `ground` on leg A, it is on the pin of A.
    """

    legs: tuple[str | None, str | None]
    place: int = 0
    stuck: str | None = None
    has_ground: bool = True
    ground: str = "middle"

    def joins(self, pins: Sequence[str]) -> set[tuple[int, int]]:
        """The pairs that read low: all with a pin on ground, and two that are only joined."""
        contacts = contacts_at(self.place)
        closed = {pin for n, pin in enumerate(self.legs) if pin and contacts >> n & 1}
        grounded = ({*closed} if self.has_ground else set()) | ({self.stuck} - {None})
        if self.ground == "A":
            closed = {*self.legs} if contacts & 2 else set()
            grounded = {self.legs[0], *closed} if contacts & 1 else set()
        low = {(one, pin) for pin in grounded for one in pins if one != pin}
        low |= {(one, other) for one in closed for other in closed if one != other}
        return {(pins.index(one), pins.index(other)) for one, other in low}


class StandIn:
    """Answers `?`, and says each change of what is closed; `path` is the port to open."""

    def __init__(
        self,
        netlist: Netlist,
        chip: str,
        exchanges: Iterable[tuple[int, int]] = (),
        knobs: Mapping[str, Knob] | None = None,
        spare: Sequence[str] = (),
    ):
        self._network, self._chip = netlist, chip
        self.knobs = knobs or {}
        legs = (pin for knob in self.knobs.values() for pin in knob.legs if pin)
        self._pins = list(dict.fromkeys((*netlist.board.pins, *legs, *spare)))
        self._place = list(range(len(netlist.board.keys)))
        for one, other in exchanges:
            self._place[one], self._place[other] = self._place[other], self._place[one]
        self._closed = self._at_rest()
        self.answers: list[str] = []  # lines more before `ready`
        self.port = PseudoPort()
        self._ours, self.path = self.port.ours, self.port.path
        self._lock, self._ends = threading.Lock(), threading.Event()
        self._thread = threading.Thread(target=self._answer, daemon=True)

    def __enter__(self) -> StandIn:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._ends.set()
        self._thread.join()
        self.port.close()

    def unplug(self) -> None:
        """Leave the program with a port that nothing is behind any more."""
        self._ends.set()
        self._thread.join()
        self.port.hang_up()

    def say(self, *lines: str) -> None:
        with self._lock:
            self.port.say(*lines)

    def press(self, *keys: str) -> bool:
        """Press keys and keep them down; return whether that closes anything."""
        if self._ends.is_set():
            return False
        closed = self._network.pressed(
            *(self._place[self._network.board.place_of[k]] for k in keys)
        )
        self._change(self._at_rest() | closed)
        return bool(closed)

    def let_go(self) -> None:
        self._change(self._at_rest())

    def turn(self, knob: str, states: int) -> None:
        """Turn a knob by so many states, to the right, or below 0 to the left."""
        for _ in range(abs(states)):
            self.knobs[knob].place += 1 if states > 0 else -1
            self._change(self._at_rest())

    def _at_rest(self) -> frozenset[tuple[int, int]]:
        joined = set(self._network.at_rest())
        for knob in self.knobs.values():
            joined |= knob.joins(self._pins)
        return frozenset(joined)

    def _change(self, now: frozenset[tuple[int, int]]) -> None:
        before, self._closed = self._closed, now
        lines = [f"{self._pair(pair)} open" for pair in sorted(before - now)]
        lines += [f"{self._pair(pair)} closed" for pair in sorted(now - before)]
        if lines:
            self.say(*lines)

    def _pair(self, pair: tuple[int, int]) -> str:
        return " > ".join(self._pins[number] for number in pair)

    def _answer(self) -> None:
        while not self._ends.is_set():
            if select.select([self._ours], [], [], WAIT_S)[0] and b"?" in os.read(self._ours, 100):
                pins = self._pins
                half = len(pins) // 2
                closed = [f"{self._pair(pair)} closed" for pair in sorted(self._closed)]
                lists = [f"pins {' '.join(part)}" for part in (pins[:half], pins[half:])]
                self.say(f"bench 2 {self._chip}", *lists, *closed, *self.answers, "ready")
