"""The plate from behind, as it lies on the bench: left is right."""

from __future__ import annotations

from matrixgen.boards import Mounted
from matrixgen.emit.sheet.bare_plate import BarePlate, bare_plate
from matrixgen.emit.sheet.bundles import NamedBundle, named_bundles
from matrixgen.emit.sheet.frame import Box, frame_of, housing_shapes, mirrored, polyline
from matrixgen.emit.sheet.ink import Ink
from matrixgen.emit.sheet.layout import BackLayout, LabelShape
from matrixgen.emit.sheet.names import Written
from matrixgen.emit.sheet.placed_board import BoardShape, board_shape
from matrixgen.model import Keyboard, Plate
from matrixgen.model.geometry import Point
from matrixgen.record import Record
from matrixgen.routing import Back, Hop, Placed, PlacedDiode, Run


class DiodeShape(Record, kw_only=True):
    """A diode: its lead from the switch's leg to its wire, the glass, and the band on it."""

    lead: str
    glass: str
    band: str


class SwitchShape(Record, kw_only=True):
    """A switch's body, post and legs from behind, and its stabiliser's cut-outs."""

    key: str
    body: str
    housings: tuple[str, ...]
    middle: Point
    legs: tuple[Point, Point]
    name: Written
    diode: DiodeShape | None


class HopShape(Record, kw_only=True):
    """A hop: its route, what makes it, and its middle."""

    route: str
    made: str
    middle: Point
    is_routed: bool
    is_left_out: bool
    is_in_haste: bool


class WireShape(Record, kw_only=True):
    """A whole wire, from the key that its controller wire starts at, and that wire's route."""

    ink: Ink
    axis: str
    hops: tuple[HopShape, ...]
    joints: tuple[Point, ...]
    to_controller: HopShape | None


class BackPicture(Record, kw_only=True):
    """All of the picture; `plate_box` has no room for labels."""

    box: Box
    plate_box: Box
    switches: tuple[SwitchShape, ...]
    wires: tuple[WireShape, ...]
    bundles: tuple[str, ...]
    labels: tuple[LabelShape, ...]
    board: BoardShape | None
    listed: tuple[NamedBundle, ...]
    unnamed: int
    is_roomy: bool
    bare: BarePlate

    @property
    def has_stabilisers(self) -> bool:
        """Whether any key has one."""
        return any(one.housings for one in self.switches)


def back_picture(
    keyboard: Keyboard,
    back: Back,
    inks: dict[str, Ink],
    pins: dict[str, str],
    mounted: Mounted | None = None,
) -> BackPicture:
    """Return the picture of a plate's back; `pins` has what to call the pin of each line."""
    plate = keyboard.plate
    layout = BackLayout(back, frame_of(plate).mirrored())
    named = named_bundles(back)
    labels = layout.labelled(pins) + layout.bundled(named)
    return BackPicture(
        box=layout.box,
        plate_box=layout.plate_box,
        switches=_switches(plate, back, layout),
        wires=tuple(_wire(run, inks) for run in back.runs if run.joints),
        bundles=tuple(
            polyline(mirrored(stretch)) for bundle in back.bundles for stretch in bundle.stretches
        ),
        labels=tuple(labels),
        board=board_shape(back.board, mounted) if back.board and mounted else None,
        listed=tuple(one for one in named if one.wires),
        unnamed=len(back.bundles) - len(named),
        is_roomy=layout.is_roomy,
        bare=bare_plate(plate, from_behind=True),
    )


def _switches(plate: Plate, back: Back, layout: BackLayout) -> tuple[SwitchShape, ...]:
    housings = housing_shapes(plate, from_behind=True)
    keys = ((one.key.name.text, one) for one in back.switches)
    return tuple(_switch(one, layout.names[key], housings.get(key, ())) for key, one in keys)


def _switch(one: Placed, name: Written, housings: tuple[str, ...]) -> SwitchShape:
    middle, near, far = mirrored((one.middle, one.near, one.far))
    return SwitchShape(
        key=one.key.name.text,
        body=polyline(mirrored(one.body)),
        housings=housings,
        middle=middle,
        legs=(near, far),
        name=name,
        diode=_diode(one.diode) if one.diode else None,
    )


def _diode(one: PlacedDiode) -> DiodeShape:
    """Return a diode; its band is a mark across a fifth of the glass, at the band's end."""
    band, other = mirrored((one.band, one.body[0] if one.band == one.body[1] else one.body[1]))
    start, end = _between(band, other, 0.1), _between(band, other, 0.32)
    return DiodeShape(
        lead=polyline(mirrored((one.leg, one.end))),
        glass=polyline(mirrored(one.body)),
        band=polyline((start, end)),
    )


def _wire(run: Run, inks: dict[str, Ink]) -> WireShape:
    return WireShape(
        ink=inks[run.line.name.text],
        axis=run.line.axis,
        hops=tuple(map(_hop, run.hops)),
        joints=mirrored([joint.at for joint in run.joints]),
        to_controller=_hop(run.lead) if run.lead else None,
    )


def _hop(hop: Hop) -> HopShape:
    route = mirrored(hop.drawn)
    longest = max(range(len(route) - 1), key=lambda n: _apart(route[n], route[n + 1]))
    return HopShape(
        route=polyline(route),
        made=hop.made,
        middle=_between(route[longest], route[longest + 1], 0.5),
        is_routed=hop.route is not None,
        is_left_out=hop.is_left_out,
        is_in_haste=hop.is_in_haste,
    )


def _apart(one: Point, other: Point) -> float:
    return abs(one[0] - other[0]) + abs(one[1] - other[1])


def _between(one: Point, other: Point, part: float) -> Point:
    return one[0] + (other[0] - one[0]) * part, one[1] + (other[1] - one[1]) * part
