"""A bench on a pseudo-terminal: a board's netlist with faults, which says what a real one would."""

from __future__ import annotations

import os
import select
import threading
from collections.abc import Iterable

from matrixgen.bench.faults.netlist import Netlist
from tests.pseudo_port import PseudoPort

WAIT_S = 0.01


class StandIn:
    """Answers `?`, and says each change of what is closed; `path` is the port to open."""

    def __init__(self, netlist: Netlist, chip: str, exchanges: Iterable[tuple[int, int]] = ()):
        self._network, self._chip = netlist, chip
        self._place = list(range(len(netlist.board.keys)))
        for one, other in exchanges:
            self._place[one], self._place[other] = self._place[other], self._place[one]
        self._closed = netlist.at_rest()
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
        self._change(self._network.at_rest() | closed)
        return bool(closed)

    def let_go(self) -> None:
        self._change(self._network.at_rest())

    def _change(self, now: frozenset[tuple[int, int]]) -> None:
        before, self._closed = self._closed, now
        lines = [f"{self._pair(pair)} open" for pair in sorted(before - now)]
        lines += [f"{self._pair(pair)} closed" for pair in sorted(now - before)]
        if lines:
            self.say(*lines)

    def _pair(self, pair: tuple[int, int]) -> str:
        return " > ".join(self._network.board.pins[number] for number in pair)

    def _answer(self) -> None:
        while not self._ends.is_set():
            if select.select([self._ours], [], [], WAIT_S)[0] and b"?" in os.read(self._ours, 100):
                pins = self._network.board.pins
                half = len(pins) // 2
                closed = [f"{self._pair(pair)} closed" for pair in sorted(self._closed)]
                lists = [f"pins {' '.join(part)}" for part in (pins[:half], pins[half:])]
                self.say(f"bench 2 {self._chip}", *lists, *closed, *self.answers, "ready")
