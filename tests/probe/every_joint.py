"""What the bench would see, worked out on a netlist of every joint, hop, switch, diode and lead.

It shares nothing with the product's netlist but the names in faults: nodes are points of metal, and
`networkx` says where current gets to.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import networkx as nx

from matrixgen.bench.board import Board
from matrixgen.bench.fault import Fault
from matrixgen.bench.observe import Seen


class Metal:
    """A board as pieces of metal. `lead_last` names lines with the lead at their last key."""

    def __init__(self, board: Board, faults: Iterable[Fault], lead_last: frozenset[str]) -> None:
        self.board, self.faults, self.lead_last = board, list(faults), lead_last
        self.lines = {line.name.text: line for line in board.lines}
        self.pin_of = {name: board.pins[n] for n, name in enumerate(self.lines)}
        self.nodes = nx.DiGraph()
        self.nodes.add_nodes_from(("pin", pin) for pin in board.pins)
        self.nodes.add_node("ground")
        for fault in self.faults:
            self._move_leads(fault)
        for name in self.lines:
            self._wire(name)
        for fault in self.faults:
            self._solder(fault)

    def has(self, kind: str, **place: tuple[str, ...]) -> bool:
        return any(
            one.kind == kind and all(getattr(one, field) == value for field, value in place.items())
            for one in self.faults
        )

    def _move_leads(self, fault: Fault) -> None:
        if fault.kind == "lines swapped":
            one, other = fault.lines
            self.pin_of[one], self.pin_of[other] = self.pin_of[other], self.pin_of[one]
        if fault.kind == "lead on another pin":
            self.pin_of[fault.lines[0]] = fault.pins[1]
        if fault.kind == "lead":
            self.pin_of[fault.lines[0]] = None

    def _join(self, one: object, other: object) -> None:
        self.nodes.add_edge(one, other)
        self.nodes.add_edge(other, one)

    def _wire(self, name: str) -> None:
        keys = [word.text for word in self.lines[name].visits]
        for one, other in pairwise(keys):
            if not self.has("hop", keys=(one, other), lines=(name,)):
                self._join(("wire", name, one), ("wire", name, other))
        self._join(("lead", name), ("wire", name, keys[-1 if name in self.lead_last else 0]))
        if self.pin_of[name]:
            self._join(("lead", name), ("pin", self.pin_of[name]))
        for key in keys:
            if not self.has("joint", keys=(key,), lines=(name,)):
                self._join(("wire", name, key), ("leg", name, key))

    def _solder(self, fault: Fault) -> None:
        if fault.kind == "lines shorted":
            self._join(("lead", fault.lines[0]), ("lead", fault.lines[1]))
        if fault.kind == "pins shorted":
            self._join(("lead", fault.lines[0]), ("pin", fault.pins[1]))
        if fault.kind == "line on ground":
            self._join(("lead", fault.lines[0]), "ground")

    def _close(self, nodes: nx.DiGraph, key: str) -> None:
        """Close the switch of a key, which has its diode in series."""
        contact = self.board.contacts[self.board.place_of[key]]
        drive, sense = (self.board.name(line) for line in self.board.ends[self.board.place_of[key]])
        nodes.add_edges_from(
            self._ways(key, contact.diode, ("leg", sense, key), ("leg", drive, key))
        )

    def _ways(self, key: str, diode: str, sense: object, drive: object) -> list:
        if self.has("diode missing", keys=(key,)) or self.has("switch dead", keys=(key,)):
            return []
        if self.has("diode shorted", keys=(key,)):
            diode = "none"
        for fault in self.faults:
            if fault.kind in ("diode turned", "diode extra") and fault.keys == (key,):
                diode = fault.diode
        ways = [(sense, drive)] if diode != "away" else []
        return ways + ([(drive, sense)] if diode != "toward" else [])

    def pairs(self, pressed: Iterable[str]) -> frozenset[tuple[int, int]]:
        nodes = self.nodes.copy()
        stuck = [one.keys[0] for one in self.faults if one.kind == "switch closed"]
        for key in (*stuck, *pressed):
            self._close(nodes, key)
        found = set()
        for read, name in enumerate(self.board.pins):
            reached = nx.descendants(nodes, ("pin", name))
            for low, other in enumerate(self.board.pins):
                if low != read and (("pin", other) in reached or "ground" in reached):
                    found.add((low, read))
        return frozenset(found)

    def seen(self) -> Seen:
        """What the bench sees, with keys that sit at each other's place."""
        place = {key: key for key in self.board.keys}
        for fault in self.faults:
            if fault.kind == "keys exchanged":
                one, other = fault.keys
                place[one], place[other] = place[other], place[one]
        rest = self.pairs(())
        keys = enumerate(self.board.keys)
        return Seen(rest, {number: self.pairs([place[key]]) - rest for number, key in keys})
