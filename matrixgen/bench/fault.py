"""A fault: its kind, its place, and what to look at."""

from __future__ import annotations

from typing import Literal

from matrixgen.model import Diode
from matrixgen.record import Record

Kind = Literal[
    "joint",
    "hop",
    "lead",
    "diode missing",
    "diode turned",
    "diode shorted",
    "diode extra",
    "switch dead",
    "switch closed",
    "lines shorted",
    "lines swapped",
    "lead on another pin",
    "pins shorted",
    "line on ground",
    "keys exchanged",
]

RARITY: dict[Kind, int] = {
    "joint": 1,
    "hop": 1,
    "lead": 1,
    "diode turned": 1,
    "lines swapped": 1,
    "diode missing": 2,
    "lead on another pin": 2,
    "lines shorted": 2,
    "keys exchanged": 2,
    "pins shorted": 3,
    "diode shorted": 3,
    "diode extra": 3,
    "switch closed": 3,
    "switch dead": 4,
    "line on ground": 4,
}
"""How rare each kind is beside the others, to sort verdicts by (common practice, no source)."""

ADVICE: dict[Kind, str] = {
    "joint": "heat it again with a little fresh solder",
    "hop": "look for a break or a cold joint there, and solder it again",
    "lead": "check both ends, at the wire and at the pin, and solder them again",
    "diode missing": "check that it is there and that both its joints hold",
    "diode turned": "reverse it",
    "diode shorted": "replace it; look for solder across it first",
    "diode extra": "remove it, or remove the key from `without diode`",
    "switch dead": "bridge its two legs with tweezers: if the key is seen then, replace the switch",
    "switch closed": "look for solder between its two legs, or a switch that sticks",
    "lines shorted": "look for a bare piece that touches, or a bridge of solder",
    "lines swapped": "swap the two wires, or correct the file",
    "lead on another pin": "move the wire, or correct the file",
    "pins shorted": "look for a bridge of solder between the two pins",
    "line on ground": "disconnect the controller from its supply and look for what touches",
    "keys exchanged": "check which wires go to which of the two switches, or swap their keycaps",
}
"""What to do about each kind."""


class Fault(Record, kw_only=True):
    """One fault. `keys`, `lines` and `pins` name its place, as its kind has them.

    A hop lies between two `keys` on one of `lines`. Of a diode, `band` says where its band should
    point, and `diode` what the key now has.
    """

    kind: Kind
    keys: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()
    pins: tuple[str, ...] = ()
    band: str = ""
    diode: Diode | None = None

    @property
    def says(self) -> str:
        """What is wrong, in words that follow a colon."""
        return _SAYS[self.kind].format(*self._named, band=self.band)

    @property
    def _named(self) -> list[str]:
        names = [f"`{name}`" for name in (*self.keys, *self.lines, *self.pins)]
        return [*names, "", "", ""]


_SAYS: dict[Kind, str] = {
    "joint": "the joint of {0} on {1} is open",
    "hop": "the wire of {2} is open between {0} and {1}",
    "lead": "the wire {0} is broken on its way to {1}",
    "diode missing": "the diode of {0} is missing, or one of its joints is open",
    "diode turned": "the diode of {0} is reversed: its band has to point {band}",
    "diode shorted": "the diode of {0} is shorted: current gets through it both ways",
    "diode extra": "{0} has a diode, although the file says that it has none",
    "switch dead": "the switch of {0} does not close",
    "switch closed": "the switch of {0} is closed while nobody presses it",
    "lines shorted": "the wires {0} and {1} touch each other",
    "lines swapped": "the wires {0} and {1} are swapped: {0} is on {3} and {1} on {2}",
    "lead on another pin": "the wire {0} is on {2}, but the file says {1}",
    "pins shorted": "the wire {0} on {1} is also connected to {2}",
    "line on ground": "the wire {0} touches ground",
    "keys exchanged": "{0} and {1} are swapped",
}
"""What each kind says; its place is filled in: keys, then lines, then pins."""
