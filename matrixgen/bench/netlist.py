"""A board with faults as an electrical netlist, asked which pins read low.

Nodes are lines, and pieces of lines that are cut off. A pressed key, or one that is always closed,
is an edge: from its sensed to its driven end, the other way round, or both ways, as its diode has
it. While a pin is pulled low, another pin reads low if current can get from it to the pulled one.
This is reachability, as in `circuit/ghosts.py`; a way over several diodes counts too.
"""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.bench.board import Board
from matrixgen.model import Diode

Pair = tuple[int, int]
"""The number of a pin that is pulled low, and of one that then reads low."""

Pairs = frozenset[Pair]
NONE: Pairs = frozenset()


class Netlist:
    """A board, whole at first; faults are put into it by changing what it holds.

    `drive_end` and `sense_end` have the node that each key's two ends are on, `on_pins` the pins
    that the lead of each node is on, `bridges` pins that solder joins to a node besides, `open` the
    keys that never conduct, `closed` those that always do, `joined` nodes that touch each other,
    and `grounded` those that touch ground.
    """

    def __init__(self, board: Board) -> None:
        self.board = board
        self.drive_end = [drive for drive, _ in board.ends]
        self.sense_end = [sense for _, sense in board.ends]
        self.diode: list[Diode] = list(board.diodes)
        self.on_pins: list[tuple[int, ...]] = [(line,) for line in range(len(board.lines))]
        self.bridges: list[tuple[int, int]] = []
        self.open: set[int] = set()
        self.closed: set[int] = set()
        self.joined: list[tuple[int, int]] = []
        self.grounded: set[int] = set()
        self._rest: Pairs | None = None

    def cut(self, ends: list[int], keys: Iterable[int]) -> None:
        """Take the ends of some keys, of one line, off it; they stay joined to each other."""
        pieces: dict[int, int] = {}
        for key in keys:
            old = ends[key]
            if old not in pieces:
                pieces[old] = len(self.on_pins)
                self.on_pins.append(())
            ends[key] = pieces[old]

    def at_rest(self) -> Pairs:
        """Return the pairs that are closed while no key is pressed."""
        if self._rest is None:
            self._rest = self._found(self.closed)
        return self._rest

    def pressed(self, key: int) -> Pairs:
        """Return the pairs that close when a key is pressed."""
        if key in self.open:
            return NONE
        if self.closed or self.grounded:
            return self._found(self.closed | {key}) - self.at_rest()
        drive, sense = self._node(self.drive_end[key]), self._node(self.sense_end[key])
        if drive == sense:
            return NONE
        low, high = self._pins(drive), self._pins(sense)
        if self.diode[key] == "away":
            low, high = high, low
        pairs = [(p, q) for p in low for q in high]
        if self.diode[key] == "none":
            pairs += [(q, p) for p, q in pairs]
        return frozenset(pairs)

    def _node(self, node: int) -> int:
        """Return the node that stands for all that are joined to this one: the least of them."""
        return min(self._group(node)) if self.joined else node

    def _group(self, node: int) -> set[int]:
        group, old = {node}, 0
        while len(group) != old:
            old = len(group)
            for pair in self.joined:
                if not group.isdisjoint(pair):
                    group.update(pair)
        return group

    def _pins(self, node: int) -> list[int]:
        group = self._group(node) if self.joined else {node}
        pins = [pin for one in group for pin in self.on_pins[one]]
        return pins + [pin for one, pin in self.bridges if one in group]

    def _found(self, closed: set[int]) -> Pairs:
        """Return the pairs that are closed while some keys are, in any netlist."""
        nodes = {self._node(node) for node in range(len(self.on_pins))} if closed else set()
        if not closed:
            nodes = {self._node(n) for pair in self.joined for n in pair}
            nodes |= {self._node(node) for node, _ in self.bridges}
            nodes |= {self._node(node) for node in self.grounded}
        onward = self._onward(closed)
        ground = {self._node(node) for node in self.grounded}
        found: set[Pair] = set()
        for node in nodes:
            high = self._pins(node)
            reached = _reached(onward, node)
            low = [pin for one in reached for pin in self._pins(one)] if high else []
            if ground & reached:
                low = list(range(len(self.board.pins)))
            found.update((p, q) for p in low for q in high if p != q)
        return frozenset(found)

    def _onward(self, closed: set[int]) -> dict[int, set[int]]:
        """Return the nodes that current gets to from each node over one closed key."""
        onward: dict[int, set[int]] = {}
        for key in closed - self.open:
            drive, sense = self._node(self.drive_end[key]), self._node(self.sense_end[key])
            if self.diode[key] != "away":
                onward.setdefault(sense, set()).add(drive)
            if self.diode[key] != "toward":
                onward.setdefault(drive, set()).add(sense)
        return onward


def _reached(onward: dict[int, set[int]], start: int) -> set[int]:
    reached, waiting = {start}, [start]
    while waiting:
        new = onward.get(waiting.pop(), set()) - reached
        reached |= new
        waiting += new
    return reached
