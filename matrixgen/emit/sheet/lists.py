"""What the sheet lists: wires with their lengths, diodes, jumpers, everything to buy."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from math import ceil

from matrixgen.boards import Mounted
from matrixgen.circuit.planned import LEAD_METRE
from matrixgen.emit.component_rows import parts_to_buy
from matrixgen.emit.sheet.frame import size_of, with_switches
from matrixgen.emit.sheet.ink import Ink
from matrixgen.model import Keyboard, Plate
from matrixgen.model.prose import counted
from matrixgen.plate.stabilisers import stabilisers_on
from matrixgen.record import Record
from matrixgen.routing import Back, Hop, Run

JOINT_SLACK_MM = 5.0
"""Wire that each joint takes besides the way. Common practice, no source."""

SPARE_IN_TEN = 1
"""One diode in ten more than there are switches: some break. Common practice, no source."""


class WireEntry(Record, kw_only=True):
    """A wire of the list. `cut_mm` has the pieces to cut, the lead to the controller the last."""

    ink: Ink
    axis: str
    pin: str
    keys: tuple[str, ...]
    leads: int
    jumpers: tuple[Hop, ...]
    way_mm: float
    cut_mm: tuple[int, ...]

    @property
    def made_of(self) -> str:
        """What its hops are made of, in words."""
        if self.leads or self.jumpers:
            parts = (counted(self.leads, "diode lead"), counted(len(self.jumpers), "jumper"))
            return " and ".join(part for part in parts if not part.startswith("0 "))
        return "one wire" if len(self.keys) > 1 else "only the controller wire"

    @property
    def metres(self) -> float:
        """How much wire it takes, in metres."""
        return sum(self.cut_mm) / 1000


class Bought(Record):
    """Something to buy: how many or how much, and what."""

    amount: str
    what: str


def wire_entries(back: Back, inks: dict[str, Ink], pins: dict[str, str]) -> tuple[WireEntry, ...]:
    """Return the wires in the order in which they are soldered: those on the diodes first."""
    ordered = sorted(back.runs, key=lambda run: run.line.axis != back.diode_axis)
    return tuple(_entry(run, inks, pins) for run in ordered)


def _entry(run: Run, inks: dict[str, Ink], pins: dict[str, str]) -> WireEntry:
    name = run.line.name.text
    jumpers = tuple(hop for hop in run.hops if hop.made == "jumper")
    pieces = [hop.length_mm + 2 * JOINT_SLACK_MM for hop in jumpers]
    if any(hop.made == "wire" for hop in run.hops):
        pieces.append(run.length_mm + len(run.joints) * JOINT_SLACK_MM)
    is_routed = run.lead and run.lead.route
    to_controller = run.lead.length_mm if run.lead and is_routed else LEAD_METRE.value * 1000
    pieces.append(to_controller + 2 * JOINT_SLACK_MM)
    return WireEntry(
        ink=inks[name],
        axis=run.line.axis,
        pin=pins.get(name, ""),
        keys=tuple(joint.key for joint in run.joints),
        leads=sum(hop.made == "lead" for hop in run.hops),
        jumpers=jumpers,
        way_mm=run.length_mm,
        cut_mm=tuple(ceil(piece / 5) * 5 for piece in pieces),
    )


def metres_by_colour(wires: Iterable[WireEntry]) -> tuple[tuple[str, float], ...]:
    """Return how many metres there have to be of each colour, in the order of the wires."""
    metres: defaultdict[str, float] = defaultdict(float)
    for wire in wires:
        metres[wire.ink.colour.name] += wire.metres
    return tuple(metres.items())


def _for_plate(plate: Plate) -> list[Bought]:
    """Return the stabilisers by how far their posts are apart, and the screws by their size."""
    apart = Counter(2 * one.offset_mm for one in stabilisers_on(plate))
    screws = Counter(hole.screw.name for hole in plate.holes)
    return [
        *(
            Bought(str(many), f"stabiliser{'s' * (many > 1)}, posts {mm:.1f} mm apart")
            for mm, many in sorted(apart.items())
        ),
        *(
            Bought(str(many), f"screw{'s' * (many > 1)} {name}")
            for name, many in sorted(screws.items())
        ),
    ]


def to_buy(
    keyboard: Keyboard,
    mounted: Mounted | None,
    wires: tuple[WireEntry, ...],
    diodes: int,
    diode: str,
) -> tuple[Bought, ...]:
    """Return everything to buy; `diode` is the diodes' part."""
    wide, high = keyboard.plate.cut_out
    fits = f"switches that fit a cut-out of {wide:g} × {high:g} mm"
    capped = with_switches(keyboard)
    bought = [Bought(str(len(capped)), fits)]
    sizes = Counter(f"{size} unit{'s' * (size != '1')}" for size in map(size_of, capped))
    bought += [Bought(str(many), f"keycaps of {size}") for size, many in sorted(sizes.items())]
    bought += _for_plate(keyboard.plate)
    bought += [Bought(str(many), what) for many, what in parts_to_buy(keyboard, mounted)]
    if diodes:
        spare = ceil(diodes * SPARE_IN_TEN / 10)
        bought.append(Bought(f"{diodes} + {spare} spare", f"diodes {diode}, with leads"))
    for colour, metres in metres_by_colour(wires):
        bought.append(Bought(f"{ceil(metres * 10) / 10:.1f} m", f"insulated wire, {colour}"))
    if mounted:
        bought.append(Bought("1", mounted.profile.title))
    bought.append(Bought("1", "USB cable that carries data, for the controller's socket"))
    return tuple(bought)
