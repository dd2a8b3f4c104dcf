"""The verdict's faults as slips of the second model, by their names and places alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import product

from matrixgen.bench.faults.board import Board
from matrixgen.bench.faults.effect import worlds_of
from matrixgen.bench.faults.explanation import Explanation
from matrixgen.bench.faults.fault import Fault
from tests.probe.slips import EXCHANGED, Slip

SIMPLE = {
    "joint": "joint",
    "diode turned": "diode turned",
    "diode shorted": "diode shorted",
    "switch dead": "switch dead",
    "switch closed": "switch stuck",
    "leg on another wire": "leg elsewhere",
    "line on ground": "on ground",
    "middle touches wire": "middle touches",
}


def slips_of(fault: Fault) -> list[Slip]:
    """The slips that a fault is called for: one, or two that no words keep apart."""
    ends = {"first": fault.first, "last": fault.last}
    at = (*fault.keys, *fault.lines)
    match fault.kind:
        case "hop":
            return [Slip("hop", (*fault.lines, *fault.keys), **ends)]
        case "piece touches":
            line, other = fault.lines
            return [Slip("piece touches", (line, *fault.keys, other), **ends)]
        case "lead":
            return [Slip("lead", fault.lines)]
        case "diode missing":
            return [Slip(kind, at) for kind in ("diode open", "middle open")]
        case "diode extra":
            return [Slip("diode extra", (*at, fault.diode))]
        case "lines shorted":
            return [Slip("wires touch", tuple(sorted(fault.lines)))]
        case "lines swapped":
            return [Slip("leads exchanged", tuple(sorted(fault.lines)))]
        case "lead on another pin":
            return [Slip("lead on spare pin", (*fault.lines, fault.pins[1]))]
        case "lead on a taken pin":
            return [Slip("lead on taken pin", fault.lines)]
        case "pins shorted":
            return [Slip("pads bridged", fault.pins)]
        case "middles touch":
            return [Slip("middles touch", fault.keys, side=fault.side)]
        case "middle touches wire":
            return [Slip("middle touches", at, side=fault.side)]
        case kind:
            return [Slip(SIMPLE[kind], at)]


def sets_of(board: Board, explanation: Explanation) -> Iterator[frozenset[Slip]]:
    """Each set of slips that an explanation stands for."""
    swaps = [
        Slip(EXCHANGED, (board.keys[one], board.keys[other]))
        for one, other in explanation.exchanges
    ]
    for faults in worlds_of(explanation.effects):
        for slips in product(*map(slips_of, faults)):
            yield frozenset([*slips, *swaps])


def every_set(board: Board, found: Iterable[Explanation]) -> set[frozenset[Slip]]:
    """All sets of slips that some explanations stand for."""
    return {one for explanation in found for one in sets_of(board, explanation)}
