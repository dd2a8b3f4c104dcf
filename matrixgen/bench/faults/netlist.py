"""A board with faults as an electrical netlist, asked which pins read low.

Nodes are lines, pins, ground, the middle of each key between its diode and its switch, and pieces
of lines that are cut off. A pressed key, or one that is always closed, is an edge: from its sensed
to its driven end, the other way round, or both ways, as its diode has it. While a pin is pulled
low, another pin reads low if current can get from it to the pulled one. This is reachability, as in
`circuit/ghosts.py`; a way over several diodes counts too.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache, cached_property

from matrixgen.bench.faults.board import Board
from matrixgen.bench.faults.fault import KeyHalf
from matrixgen.model import Diode

Pair = tuple[int, int]
"""The number of a pin that is pulled low, and of one that then reads low."""

Pairs = frozenset[Pair]
NONE: Pairs = frozenset()

Arc = tuple[int, int]
"""Two nodes: current can get from the first one to the second one."""


class Netlist:
    """A board, whole at first; faults are put into it by changing what it holds.

    `leads` has the pin that each line's controller wire is on, `drive_end` and `sense_end` the node
    that each key's two ends are on, `open` the keys that never conduct, `half_open` the halves of
    keys that do not, `closed` the keys that always conduct, `joined` the nodes that touch, `ground`
    the node of ground, and `middles` the keys whose middle touches something, with the side that
    their diode is on.
    """

    def __init__(self, board: Board) -> None:
        self.board = board
        self.leads: list[int | None] = list(range(len(board.lines)))
        self.drive_end = list(board.drive_ends)
        self.sense_end = list(board.sense_ends)
        self.diode: list[Diode] = list(board.diodes)
        self.open: set[int] = set()
        self.half_open: set[tuple[int, KeyHalf]] = set()
        self.closed: set[int] = set()
        self.joined: list[tuple[int, int]] = []
        self.middles: dict[int, KeyHalf] = {}
        self.ground = len(board.lines) + len(board.pins)
        self._pieces = 0
        self._rest: Pairs | None = None

    def pin_node(self, pin: int) -> int:
        """Return the node of a pin; there is one for each, and ground is what would be the next."""
        return len(self.board.lines) + pin

    def middle_node(self, key: int) -> int:
        """Return the node between the diode and the switch of a key."""
        return self.ground + 1 + key

    def ends_on(self, side: KeyHalf) -> list[int]:
        """Return the list of the nodes that one end of each key is on."""
        return self.drive_end if side == "drive" else self.sense_end

    def end_on(self, key: int, line: int) -> int:
        """Return the node of the end of a key that belongs on a line."""
        return self.ends_on("drive" if self.board.ends[key][0] == line else "sense")[key]

    def are_metal(self, one: int, other: int) -> bool:
        """Whether two nodes are joined by metal alone, so that a meter beeps between them."""
        return _root(self._roots, one) == _root(self._roots, other)

    def cut(self, side: KeyHalf, keys: Iterable[int]) -> None:
        """Take the ends of some keys, of one line, off it; they stay joined to each other."""
        self._pieces += 1
        ends = self.ends_on(side)
        for key in keys:
            ends[key] = -self._pieces

    def at_rest(self) -> Pairs:
        """Return the pairs that are closed while no key is pressed."""
        if self._rest is None:
            self._rest = self._found(self._always) if self._has_rest else NONE
        return self._rest

    def pressed(self, *keys: int) -> Pairs:
        """Return the pairs that close when keys are held down together."""
        new = [edge for key in keys for edge in self._switch(key)]
        if not new:
            return NONE
        if self._has_rest or len(keys) > 1:
            return self._found([*self._always, *new]) - self.at_rest()
        start, end = new[0]
        return _pairs(self._pins_of(end), self._pins_of(start), len(new) > 1)

    @cached_property
    def _metal(self) -> tuple[dict[int, int], dict[int, tuple[int, ...]]]:
        """The nodes that others stand for, each with another one; the pins of those that do."""
        base = self.ground - len(self.board.pins)
        roots = {line: base + pin for line, pin in enumerate(self.leads) if pin is not None}
        pins: dict[int, tuple[int, ...]] = {
            base + pin: (pin,) for pin in range(len(self.board.pins))
        }
        for one, other in self.joined:
            start, end = _root(roots, one), _root(roots, other)
            if start != end:
                roots[start] = end
                if start in pins:
                    pins[end] = (*pins.get(end, ()), *pins.pop(start))
        return roots, pins

    @property
    def _roots(self) -> dict[int, int]:
        return self._metal[0]

    def _pins_of(self, node: int) -> tuple[int, ...]:
        return self._metal[1].get(node, ())

    @cached_property
    def _has_rest(self) -> bool:
        """Whether anything may be closed while no key is pressed, or be no simple edge."""
        return bool(self.joined or self._always)

    @cached_property
    def _always(self) -> list[Arc]:
        """The edges that are there while no key is pressed."""
        edges = [edge for key in self.closed for edge in self._switch(key)]
        for key, side in self.middles.items():
            other: KeyHalf = "sense" if side == "drive" else "drive"
            if (key, side) not in self.half_open:
                edges += self._way(key, {side: self._end(key, side), other: self._middle(key)})
        return edges

    def _switch(self, key: int) -> list[Arc]:
        """Return the edges that the switch of a key makes."""
        if key in self.open:
            return []
        if key not in self.middles:
            if any((key, side) in self.half_open for side in ("drive", "sense")):
                return []
            return self._way(
                key, {"drive": self._end(key, "drive"), "sense": self._end(key, "sense")}
            )
        side: KeyHalf = "sense" if self.middles[key] == "drive" else "drive"
        if (key, side) in self.half_open:
            return []
        end, middle = self._end(key, side), self._middle(key)
        return [(end, middle), (middle, end)] if end != middle else []

    def _way(self, key: int, ends: dict[KeyHalf, int]) -> list[Arc]:
        """Return the edges from one end of a key to the other, as its diode has them."""
        drive, sense = ends["drive"], ends["sense"]
        if drive == sense:
            return []
        edges = [(sense, drive)] if self.diode[key] != "away" else []
        return [*edges, (drive, sense)] if self.diode[key] != "toward" else edges

    def _end(self, key: int, side: KeyHalf) -> int:
        return _root(self._roots, self.ends_on(side)[key])

    def _middle(self, key: int) -> int:
        return _root(self._roots, self.middle_node(key))

    def _found(self, edges: list[Arc]) -> Pairs:
        """Return the pairs that are closed with some edges, in any netlist."""
        onward: dict[int, set[int]] = {}
        for start, end in edges:
            onward.setdefault(start, set()).add(end)
        ground = _root(self._roots, self.ground)
        found: set[Pair] = set()
        for node, high in self._metal[1].items():
            if len(high) > 1 or node in onward or node == ground:
                reached = _reached(onward, node)
                low = [pin for one in reached for pin in self._pins_of(one)]
                if ground in reached:
                    low = list(range(len(self.board.pins)))
                found.update((p, q) for p in low for q in high if p != q)
        return frozenset(found)


def _root(roots: dict[int, int], node: int) -> int:
    while node in roots:
        node = roots[node]
    return node


@cache
def _pairs(low: tuple[int, ...], high: tuple[int, ...], both: bool) -> Pairs:
    """Return the pairs of pins that are pulled low with those that read low, or both ways."""
    pairs = {(p, q) for p in low for q in high}
    return frozenset(pairs | {(q, p) for p, q in pairs} if both else pairs)


def _reached(onward: dict[int, set[int]], start: int) -> set[int]:
    reached, waiting = {start}, [start]
    while waiting:
        new = onward.get(waiting.pop(), set()) - reached
        reached |= new
        waiting += new
    return reached
