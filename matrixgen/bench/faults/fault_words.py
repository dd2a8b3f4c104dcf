"""What each kind of fault says, and what to do about it."""

from __future__ import annotations

from matrixgen.bench.faults.fault import Fault, FaultKind

ADVICE: dict[FaultKind, str] = {
    "joint": "heat it again with a little fresh solder",
    "hop": "look for a break or a cold joint there, and solder it again",
    "lead": "check both ends, at the wire and at the pin, and solder them again",
    "diode missing": "check that it is there and that both its joints hold",
    "diode turned": "reverse it",
    "diode shorted": "replace it; look for solder across it first",
    "diode extra": "remove it, or remove the key from `without diode`",
    "switch dead": "bridge its two legs with tweezers: if the key is seen then, replace the switch",
    "switch closed": "look for solder between its two legs, or a switch that sticks",
    "leg on another wire": "find the leg or diode of {0} that is soldered to {2}, and move it to "
    "{1}",
    "lines shorted": "look for a bare piece that touches, or a bridge of solder",
    "lines swapped": "swap the two wires at their pins",
    "lead on another pin": "move the wire {0} to {1}",
    "lead on a taken pin": "move the wire {0} to {2}: nothing should share a pin",
    "piece touches": "solder the wire of {2} between {0} and {1}, and keep it clear of {3}",
    "middle touches wire": "bend the joint and the wire apart, or insulate the wire there",
    "middles touch": "bend the two joints apart, or insulate one of them",
    "pins shorted": "look for a bridge of solder between the two pins",
    "line on ground": "look for what touches before you plug in again",
    "keys exchanged": "check which wires go to which of the two switches, or swap their keycaps",
}
"""What to do about each kind."""

_SAYS: dict[FaultKind, str] = {
    "joint": "the joint of {0} on {1} is open",
    "hop": "the wire of {2} is open between {0} and {1}",
    "lead": "the wire {0} is broken on its way to {1}",
    "diode missing": "the diode of {0} is missing, or one of its joints is open",
    "diode turned": "the diode of {0} is reversed: its band has to point {band}",
    "diode shorted": "the diode of {0} is shorted: current gets through it both ways",
    "diode extra": "{0} has a diode, although the file says that it has none",
    "switch dead": "the switch of {0} does not close",
    "switch closed": "the switch of {0} is closed while nobody presses it",
    "leg on another wire": "{0} is on {2} instead of {1}",
    "lines shorted": "the wires {0} and {1} touch each other",
    "lines swapped": "the wires {0} and {1} are swapped: {0} is on {3} and {1} on {2}",
    "lead on another pin": "the wire {0} is on {2}, but the file says {1}",
    "lead on a taken pin": "the wire {0} is on {3}, the pin of {1}, but the file says {2}",
    "piece touches": "the wire of {2} is open between {0} and {1}, and the piece from {1} on "
    "touches {3}",
    "middle touches wire": "the joint between diode and switch of {0} touches the wire {1}",
    "middles touch": "the joints between diode and switch of {0} and {1} touch each other",
    "pins shorted": "the pins {0} and {1} are connected",
    "line on ground": "the wire {0} touches ground",
    "keys exchanged": "{0} and {1} are swapped",
}
"""What each kind says; its place is filled in: keys, then lines, then pins."""


def says_of(fault: Fault) -> str:
    """Return what is wrong, in words that follow a colon."""
    return _SAYS[fault.kind].format(*_named(fault), band=fault.band)


def advice_on(fault: Fault) -> str:
    """Return what to do about a fault."""
    return ADVICE[fault.kind].format(*_named(fault))


def _named(fault: Fault) -> list[str]:
    return [f"`{name}`" for name in fault.names]
