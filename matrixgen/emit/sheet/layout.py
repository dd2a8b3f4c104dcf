"""Where the words of the back's picture are: names on switches first, then labels in the margin."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import pairwise
from math import dist

from matrixgen.emit.sheet.bundles import NamedBundle
from matrixgen.emit.sheet.frame import Box, Frame, mirrored, place, polyline
from matrixgen.emit.sheet.labels import SIDES, Label, Margin, Side, Wanted, outlines
from matrixgen.emit.sheet.names import Written, written
from matrixgen.emit.sheet.space import Rectangle, Space
from matrixgen.model.convex import convex
from matrixgen.model.geometry import Point
from matrixgen.record import Record
from matrixgen.routing import Back, Placed
from matrixgen.routing.laid import LaidWires, WirePiece

NARROW_MM, WIDE_MM, CLOSE_MM = 0.84, 1.5, 2.2
"""How thick wires are drawn, with their edges: narrow where some are so close to others."""

BUNDLE_MM = 2.2
"""How thick a bundle is drawn, with its edges."""

LEG_MM, GLASS_MM, LEAD_MM = 0.95, 1.1, 0.4
"""How far a leg or joint, a diode and its lead reach to either side, with some room beside them."""

LABEL_GAP = "\u00a0\u00a0"
"""What stands between a pin and a wire's name: spaces that a picture keeps."""

JOINT_MM = 0.95
"""How far from the middle of its joint the line of a label begins."""

PAD_MM = 3.0
"""Room round everything."""


class LabelShape(Record, kw_only=True):
    """A label in the margin: a wire's pin and name, or the wires of a bundle."""

    wire: str
    leader: str
    at: Point
    anchor: str
    turn: str
    text: str


class BackLayout:
    """The words of a picture of a plate's back, and how thick its wires are drawn."""

    def __init__(self, back: Back, frame: Frame) -> None:
        self._back = back
        self._extent = max(frame.width, frame.height)
        self._laid = LaidWires(self._extent)
        self.is_roomy = True
        for wire, route in self._routes():
            joints = route[0], route[-1]
            pieces = (WirePiece(one, other, wire, joints) for one, other in pairwise(route))
            self.is_roomy = self.is_roomy and not any(
                self._laid.shared_mm(piece, CLOSE_MM) for piece in pieces
            )
            self._laid.lay(route, wire)
        self.names, boxes = self._named()
        self._margin = Margin(self._inner(frame), boxes, self._laid)

    def _routes(self) -> Iterator[tuple[int, tuple[Point, ...]]]:
        for wire, run in enumerate(self._back.runs):
            for hop in run.all_hops:
                yield wire, mirrored(hop.drawn)

    def _inner(self, frame: Frame) -> Frame:
        """Return the extent of plate, wires and the controller's board."""
        board = self._back.board
        points = [at for _, route in self._routes() for at in route]
        points += mirrored((*board.corners, *board.socket)) if board else ()
        xs = [frame.left, frame.right, *(x for x, _ in points)]
        ys = [frame.top, frame.bottom, *(y for _, y in points)]
        return Frame(left=min(xs), top=min(ys), right=max(xs), bottom=max(ys))

    def _named(self) -> tuple[dict[str, Written], Space]:
        """Return the names of the keys, and what the lines of labels are to keep off."""
        taken, kept = self._taken(), Space(self._extent)
        found = {}
        for switch in self._back.switches:
            body = convex(mirrored(switch.body)[::-1])
            (middle,) = mirrored([switch.middle])
            name = written(switch.key.name.text, body, middle, taken)
            taken.put(name.box)
            kept.put(name.box)
            found[switch.key.name.text] = name
            for x, y in mirrored(_spots(switch)):
                kept.put(Rectangle(x, y, x, y).grown(LEG_MM + 0.2))
        return found, kept

    def _taken(self) -> Space:
        """Return what names on switches are to keep off."""
        space = Space(self._extent)
        half = (WIDE_MM if self.is_roomy else NARROW_MM) / 2
        drawn = [(route, half) for _, route in self._routes()]
        stretches = (one for bundle in self._back.bundles for one in bundle.stretches)
        drawn += [(mirrored(stretch), BUNDLE_MM / 2) for stretch in stretches]
        for points, reach in drawn:
            for piece in pairwise(points):
                space.put_line(*piece, reach)
        for switch in self._back.switches:
            for at in mirrored(_spots(switch)):
                space.put_line(at, at, LEG_MM)
            if switch.diode:
                leg, end = mirrored((switch.diode.leg, switch.diode.end))
                start, last = mirrored(switch.diode.body)
                space.put_line(leg, end, LEAD_MM)
                space.put_line(start, last, GLASS_MM)
        return space

    def labelled(self, pins: dict[str, str]) -> list[LabelShape]:
        """Return a label for each wire: its pin, as far as it is known, and its name."""
        return [
            self._label(
                run.line.name.text,
                LABEL_GAP.join(filter(None, (pins.get(run.line.name.text), run.line.name.text))),
                run.joints[0].at,
                wire,
                ("left", "right") if run.line.axis == "row" else ("top", "bottom"),
            )
            for wire, run in enumerate(self._back.runs)
            if run.joints
        ]

    def bundled(self, bundles: Sequence[NamedBundle]) -> list[LabelShape]:
        """Return a label for each of these bundles."""
        return [self._label("", one.label, one.middle, -1, SIDES) for one in bundles]

    def _label(
        self, wire: str, text: str, at: Point, number: int, sides: tuple[Side, ...]
    ) -> LabelShape:
        (end,) = mirrored([at])
        self._margin.put(Wanted(text, end, number, sides))
        return _shape(wire, self._margin.labels[-1])

    @property
    def plate_box(self) -> Box:
        """The box of the plate, its wires and the controller's board, without labels."""
        return self._margin.inner.box(PAD_MM, PAD_MM, PAD_MM)

    @cached_property
    def box(self) -> Box:
        """The box of the whole picture, with all labels that were put so far."""
        inner = self._margin.inner
        corners = [(inner.left, inner.top), (inner.right, inner.bottom)]
        xs, ys = zip(*corners, *outlines(self._margin.labels), strict=True)
        return Box(
            x=min(xs) - PAD_MM,
            y=min(ys) - PAD_MM,
            width=max(xs) - min(xs) + 2 * PAD_MM,
            height=max(ys) - min(ys) + 2 * PAD_MM,
        )


def _spots(switch: Placed) -> tuple[Point, ...]:
    """Return a switch's legs and joints."""
    end = (switch.diode.end,) if switch.diode else ()
    return (switch.near, switch.far, *end)


def _towards(start: Point, end: Point) -> Point:
    """Return where a line begins that does not cover the joint that it starts at."""
    part = min(0.5, JOINT_MM / (dist(start, end) or 1.0))
    return start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part


def _shape(wire: str, label: Label) -> LabelShape:
    return LabelShape(
        wire=wire,
        leader=polyline((_towards(label.leader[0], label.leader[1]), *label.leader[1:])),
        at=label.at,
        anchor=label.anchor,
        turn=f"rotate({label.turn} {place(label.at)})" if label.turn else "",
        text=label.text,
    )
