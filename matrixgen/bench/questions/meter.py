"""What a meter, or a look, says of a fault: questions that are answered with yes or no.

A measurement is between two places on the unplugged keyboard. Each fault has those that show it.
"""

from __future__ import annotations

from typing import Literal

from matrixgen.bench.faults.fault import Fault, FaultKind
from matrixgen.record import Record

MeterKind = Literal[
    "leg", "hop", "lead", "wire to pin", "wire to leg", "piece", "middle", "middles", "ground",
    "diode", "band", "short", "has diode", "switch", "closed", "touch", "bridge", "exchange",
]  # fmt: skip

BEEPS = "does the meter beep between "
ASKS: dict[MeterKind, str] = {
    "leg": BEEPS + "the leg or lead of {0} that belongs on {1} and the wire of {1} beside it",
    "hop": BEEPS + "the wire of {2} at {0} and at {1}",
    "lead": BEEPS + "the pin {1} and the wire {0}",
    "wire to pin": BEEPS + "the pin {1} and the wire {0}",
    "wire to leg": BEEPS + "the leg or lead of {0} that belongs on {1} and the wire {2}",
    "piece": BEEPS + "the wire of {1} at {0} and the wire {2}",
    "middle": BEEPS + "the joint of diode and switch of {0} and the wire {1}",
    "middles": BEEPS + "the joints of diode and switch of {0} and of {1}",
    "ground": BEEPS + "the wire {0} and ground",
    "diode": "in its diode test, does the meter show 0.4 to 0.8 V across the diode of {0}, with "
    "the red probe on the end without the band",
    "band": "look at the diode of {0}: does its band point {band}",
    "short": "does the meter beep across the diode of {0} both ways",
    "has diode": "look at {0}: does it have a diode",
    "switch": "hold {0} down: does the meter beep between the two legs of its switch",
    "closed": "do not press {0}: does the meter beep between the two legs of its switch",
    "touch": "look along the wires {0} and {1}: do they touch anywhere",
    "bridge": "look at the pins {0} and {1}: is there solder between them",
    "exchange": "look at the switches of {0} and {1}: is each on the wires of the other",
}
"""How each is asked; its names are filled in."""

HEALTHY: frozenset[MeterKind] = frozenset({"leg", "hop", "lead", "diode", "band", "switch"})
"""What is answered with yes while nothing is wrong there."""


class Measurement(Record):
    """What to measure, or to look at, and where."""

    what: MeterKind
    names: tuple[str, ...]
    band: str = ""

    @property
    def asks(self) -> str:
        """The question, which is answered with yes or no."""
        names = [f"`{name}`" for name in self.names]
        return ASKS[self.what].format(*names, band=self.band) + "?"


OF_ALL_NAMES: dict[FaultKind, MeterKind] = {
    "joint": "leg",
    "lead": "lead",
    "diode missing": "diode",
    "diode extra": "has diode",
    "switch dead": "switch",
    "switch closed": "closed",
    "lines shorted": "touch",
    "pins shorted": "bridge",
    "middle touches wire": "middle",
    "middles touch": "middles",
    "line on ground": "ground",
    "keys exchanged": "exchange",
}
"""Faults that one measurement shows, which is of all that the fault names."""


def measurements_of(fault: Fault) -> tuple[Measurement, ...]:
    """Return the measurements whose answers a fault changes."""
    keys, lines, pins = fault.keys, fault.lines, fault.pins
    match fault.kind:
        case "leg on another wire":
            moved = Measurement("wire to leg", (*keys, *lines))
            return moved, Measurement("leg", (*keys, lines[0]))
        case "hop":
            return (Measurement("hop", (*sorted(keys), *lines)),)
        case "piece touches":
            piece = Measurement("piece", (keys[1], *lines))
            return piece, Measurement("hop", (*sorted(keys), lines[0]))
        case "lead on another pin" | "lead on a taken pin":
            moved = Measurement("wire to pin", (lines[0], pins[1]))
            return moved, Measurement("lead", (lines[0], pins[0]))
        case "lines swapped":
            across = zip(lines, pins[::-1], strict=True)
            straight = zip(lines, pins, strict=True)
            return (
                *(Measurement("wire to pin", names) for names in across),
                *(Measurement("lead", names) for names in straight),
            )
        case "diode turned":
            return (Measurement("band", keys, fault.band),)
        case "diode shorted":
            return (Measurement("short", keys), Measurement("diode", keys))
        case kind:
            return (Measurement(OF_ALL_NAMES[kind], tuple(fault.names)),)
