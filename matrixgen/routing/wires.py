"""A wire on the plate's back: its hops, what makes each, and its route."""

from __future__ import annotations

from itertools import pairwise
from math import dist
from typing import Literal

from matrixgen.model import Line
from matrixgen.record import Record
from matrixgen.routing.places import LEAD_BEFORE_BODY_MM, Joint, Route

Made = Literal["lead", "jumper", "wire"]
"""What makes a hop: the free lead of the diode at its first key, a piece of wire of its own where
no lead gets so far, or a stretch of one wire that goes from key to key."""

LEAD_MM = 25.4
"""How long a diode's lead is, at least: DO-35 (Vishay 81857, package drawing)."""

JOINT_MM = 2.0
"""Lead that the joint at a hop's far end takes. Common practice, no source."""

REACH_MM = LEAD_MM - LEAD_BEFORE_BODY_MM - JOINT_MM
"""How far a diode's lead gets beyond the place where it is joined to its own wire."""


class Hop(Record, kw_only=True):
    """A wire from one key to the next that it visits.

    `route` is None where none was found round what is in its way; where it `is_left_out`, none was
    looked for, since that had taken too long for the others. Where it `is_in_haste`, there was a
    route, and no time left to lay it beside other wires.
    """

    start: Joint
    end: Joint
    made: Made
    route: Route | None
    is_left_out: bool = False
    is_in_haste: bool = False

    @property
    def drawn(self) -> Route:
        """The route, or a straight one where none was found."""
        return self.route or (self.start.at, self.end.at)

    @property
    def length_mm(self) -> float:
        """How long it is."""
        return sum(dist(one, other) for one, other in pairwise(self.drawn))


class Run(Record, kw_only=True):
    """A whole wire: its joints and hops in soldering order.

    `lead` goes from the controller's pad to the first joint; None where that is not known.
    """

    line: Line
    joints: tuple[Joint, ...]
    hops: tuple[Hop, ...]
    lead: Hop | None = None

    @property
    def all_hops(self) -> tuple[Hop, ...]:
        """Its hops, that to the controller first, if it is known."""
        return (self.lead, *self.hops) if self.lead else self.hops

    @property
    def length_mm(self) -> float:
        """How long it is from its first key to its last."""
        return sum(hop.length_mm for hop in self.hops)
