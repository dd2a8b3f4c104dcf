"""What a measurement is answered with on a keyboard with some faults."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.bench.faults.board import Board
from matrixgen.bench.faults.fault import Fault
from matrixgen.bench.faults.netlist import Netlist
from matrixgen.bench.questions.meter import HEALTHY, Measurement, measurements_of


def is_yes(
    measurement: Measurement, board: Board, netlist: Netlist, faults: Sequence[Fault]
) -> bool:
    """Return the answer to a measurement; the netlist is that of the faults.

    A meter beeps along all metal, so that another fault may join two places; a look, or a test of a
    part, is of one fault alone.
    """
    is_changed = any(measurement in measurements_of(fault) for fault in faults)
    is_own = is_changed != (measurement.what in HEALTHY)
    nodes = _Points(board, netlist, faults).of(measurement)
    if nodes is None:
        return is_own
    is_metal = netlist.are_metal(*nodes)
    if measurement.what in ("leg", "hop"):  # a joint, which no node of the netlist is
        moved = any(fault.kind in ("leg on another wire", "piece touches") for fault in faults)
        return is_own or (moved and is_metal)
    return is_metal


class _Points:
    """Where a meter's probes are, as nodes of a netlist."""

    def __init__(self, board: Board, netlist: Netlist, faults: Sequence[Fault]) -> None:
        self._board, self._netlist = board, netlist
        self._moved = {fault.parts for fault in faults if fault.kind == "leg on another wire"}

    def of(self, measurement: Measurement) -> tuple[int, int] | None:
        """Return the nodes of both probes; None where it is no test for a beep."""
        names, line, netlist = measurement.names, self._board.line_number, self._netlist
        match measurement.what:
            case "lead" | "wire to pin":
                return line[names[0]], netlist.pin_node(self._board.pin_number[names[1]])
            case "leg":
                return self._leg(names[0], names[1]), line[names[1]]
            case "wire to leg":
                return self._leg(names[0], names[1]), line[names[2]]
            case "hop":
                return self._wire(names[0], names[2]), self._wire(names[1], names[2])
            case "piece":
                return self._wire(names[0], names[1]), line[names[2]]
            case "middle":
                return self._middle(names[0]), line[names[1]]
            case "middles":
                return self._middle(names[0]), self._middle(names[1])
            case "ground":
                return line[names[0]], netlist.ground
            case _:
                return None

    def _leg(self, key: str, line: str) -> int:
        return self._netlist.end_on(self._board.place_of[key], self._board.line_number[line])

    def _wire(self, key: str, line: str) -> int:
        """Return the node of a wire at a key, which is that of its leg, unless that was moved."""
        if frozenset([("leg", key, line)]) in self._moved:
            return self._board.line_number[line]
        return self._leg(key, line)

    def _middle(self, key: str) -> int:
        return self._netlist.middle_node(self._board.place_of[key])
