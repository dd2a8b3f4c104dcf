"""The controller's edges as one sees them, with what is soldered where."""

from __future__ import annotations

from matrixgen.boards import Mounted, Pin
from matrixgen.boards.edge import Edge, Side
from matrixgen.emit.sheet.frame import Box
from matrixgen.emit.sheet.ink import Ink
from matrixgen.model import Component
from matrixgen.model.geometry import Point
from matrixgen.record import Record

PITCH_MM = 5.2
"""Between two pads in the picture, which is not to scale."""

LEAST_ACROSS_MM = 46.0
BESIDE_MM, BARE_MM = 46.0, 8.0
"""Room for what stands at a side with pads, and at one without."""

SIDES: dict[Side, str] = {"left": "end", "right": "start", "top": "start", "bottom": "end"}
MIRRORED: dict[Side, Side] = {"left": "right", "right": "left", "top": "top", "bottom": "bottom"}


class DrawnPad(Record, kw_only=True):
    """A pad: what is printed or meant, what goes there, and whether it must not be touched."""

    at: Point
    text_at: Point
    anchor: str
    turn: str
    name: str
    wire: str
    css: str
    use: str


class BoardPicture(Record, kw_only=True):
    """A controller seen from one side; `is_chip` where pin 1 takes the socket's place."""

    title: str
    box: Box
    width: float
    height: float
    pads: tuple[DrawnPad, ...]
    is_chip: bool
    is_turned: bool


def board_pictures(mounted: Mounted, inks: dict[str, Ink]) -> tuple[BoardPicture, ...]:
    """Return the controller from the side of its parts and from the other; none without edges."""
    edges = mounted.profile.edges
    if not edges:
        return ()
    return (
        _picture(mounted, inks, edges, "parts side up"),
        _picture(mounted, inks, tuple(map(_turned_over, edges)), "parts side down"),
    )


def _turned_over(edge: Edge) -> Edge:
    """Return an edge as it is after the board was turned over about its upright axis."""
    across = edge.side in ("top", "bottom")
    return Edge(MIRRORED[edge.side], edge.names[::-1] if across else edge.names)


def _picture(
    mounted: Mounted, inks: dict[str, Ink], edges: tuple[Edge, ...], title: str
) -> BoardPicture:
    longest = {side: _longest(edges, side) for side in (("left", "right"), ("top", "bottom"))}
    width = max(LEAST_ACROSS_MM, (longest["top", "bottom"] + 1) * PITCH_MM)
    height = max(20.0, (longest["left", "right"] + 1) * PITCH_MM)
    with_pads = {edge.side for edge in edges}
    above, below = (BESIDE_MM if side in with_pads else BARE_MM for side in ("top", "bottom"))
    part_on = {
        use.pin.name: use.end.called for use in mounted.uses if isinstance(use.end, Component)
    }
    wire_on = {wired.pin.name: inks[wired.line.name.text] for wired in mounted.wired}
    return BoardPicture(
        title=title,
        box=Box(x=-BESIDE_MM, y=-above, width=width + 2 * BESIDE_MM, height=height + above + below),
        width=width,
        height=height,
        pads=tuple(
            _pad(mounted, wire_on, part_on, edge, number, name, (width, height))
            for edge in edges
            for number, name in enumerate(edge.names)
        ),
        is_chip=len(edges) == 4,
        is_turned=edges != mounted.profile.edges,
    )


def _longest(edges: tuple[Edge, ...], sides: tuple[str, ...]) -> int:
    return max((len(edge.names) for edge in edges if edge.side in sides), default=0)


def _pad(
    mounted: Mounted,
    wire_on: dict[str, Ink],
    part_on: dict[str, str],
    edge: Edge,
    number: int,
    name: str,
    size: tuple[float, float],
) -> DrawnPad:
    pin = mounted.profile.pin(name)
    ink = wire_on.get(name)
    at, text_at, turn = _places(edge, number, size)
    return DrawnPad(
        at=at,
        text_at=text_at,
        anchor=SIDES[edge.side],
        turn=turn,
        name=pin.shown if pin else name,
        wire=ink.wire if ink else part_on.get(name, ""),
        css=ink.css if ink else "",
        use=_use(pin, is_used=bool(ink) or name in part_on),
    )


def _use(pin: Pin | None, *, is_used: bool) -> str:
    """Return what a pad is: used, spare, or not to be touched."""
    if is_used:
        return "used"
    return "spare" if pin and pin.is_usable else "taboo"


def _places(edge: Edge, number: int, size: tuple[float, float]) -> tuple[Point, Point, str]:
    """Return where a pad is, where its text begins and how that is turned."""
    width, height = size
    along = (number + 1) * PITCH_MM
    if edge.side in ("left", "right"):
        x = 0.0 if edge.side == "left" else width
        outward = -3.0 if edge.side == "left" else 3.0
        return (x, along), (x + outward, along + 1.1), ""
    y = 0.0 if edge.side == "top" else height
    outward = -3.0 if edge.side == "top" else 3.0
    text_at = along + 1.1, y + outward
    return (along, y), text_at, f"rotate(-90 {text_at[0]:.2f} {text_at[1]:.2f})"
