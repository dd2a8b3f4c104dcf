"""Where each switch sits. Lengths are in key units (19.05 mm, common practice); y grows down."""

from __future__ import annotations

from functools import cached_property

from matrixgen.model.actions import Media, Pointer, Press
from matrixgen.model.component import ComponentPlace
from matrixgen.model.text import Span, Word
from matrixgen.model.work import AnyOrder, Cosmetic, Derived, Reflash, Solder
from matrixgen.record import Record


class Screw(Record):
    """A size of screws, in millimetres: its nominal one, its hole, and what its head takes.

    Holes: ISO 273, medium fit. Heads: an M3 takes 6 mm (common practice, no source); M2 and M2.5
    take a pan head of ISO 7045, 4.0 and 5.0 mm, and 0.4 mm more.
    """

    nominal: float
    hole_mm: float
    head_mm: float

    @property
    def name(self) -> str:
        """What it is called, such as M2.5."""
        return f"M{self.nominal:g}"


SCREWS = (Screw(2.0, 2.4, 4.4), Screw(2.5, 2.9, 5.4), Screw(3.0, 3.4, 6.0))
USUAL_SCREW = SCREWS[-1]
"""The screw of a hole of which the file does not say for which it is."""

CutOutSize = tuple[float, float]
"""Width and height in millimetres."""

CUT_OUT_MM: CutOutSize = (14.0, 14.0)
"""A switch's cut-out in the plate, where the file says no other (common practice, no source)."""

HOUSING_MM = 7.0, 15.0
"""Width and height of the cut-out for a housing of a stabiliser, with room for those that clip into
the plate and for those on a board (from memory: measure a part before you cut)."""

THICKNESS_MM = 5.0
"""How thick a plate to print is, where nobody says: 1.5 mm of plastic alone bends (common practice,
no source)."""


class Key(Record, kw_only=True):
    """One switch.

    `x` and `y` are its top left corner before it is turned, and `turned` its angle in degrees
    clockwise about (`pivot_x`, `pivot_y`), all on the plate. `plate_line` counts the `line`s of the
    plate from 0, over all clusters; that is also the row of a layer's picture. `own_action` is what
    the name itself says, or None where the name is no usage.
    """

    name: Cosmetic[Word]
    x: Solder[float]
    y: Solder[float]
    width: Solder[float]
    height: Solder[float]
    turned: Solder[float]
    pivot_x: Solder[float]
    pivot_y: Solder[float]
    plate_line: Derived[int]
    own_action: Derived[Press | Media | Pointer | None]


def stem_of(key: str) -> str:
    """Return a key's name without its tag: what is left is what may say what the key does."""
    return key.rpartition(".")[0] or key


class PlateLine(Record):
    """One `line` of the plate: its keys from left to right; `span` is the whole line.

    `cluster` is the name of the cluster that it belongs to, or None for the plate itself.
    """

    keys: Reflash[tuple[Key, ...]]
    cluster: Cosmetic[str | None]
    span: Span


class Mirror(Record):
    """What a cluster is the mirror image of: another one, about a vertical line at `about`."""

    of: Word
    about: float


class Cluster(Record, kw_only=True):
    """A group of lines with a corner of its own, turned about it; `span` is its statement.

    `place` is where its numbers stand; what they say is where its keys are. A mirrored cluster's
    corner is the image of the other's, so that its keys lie left of it.
    """

    name: Cosmetic[Word]
    x: Derived[float]
    y: Derived[float]
    turned: Derived[float]
    mirror: Derived[Mirror | None]
    place: Span
    span: Span


class Hole(Record):
    """A screw hole: its middle, from the plate's upper left corner; `span` is its statement.

    It is the plate's own and turns with no cluster. `nominal` is its screw's size in millimetres.
    """

    x: Solder[float]
    y: Solder[float]
    span: Span
    nominal: Solder[float] = USUAL_SCREW.nominal

    @property
    def screw(self) -> Screw:
        """What is known of its screw."""
        return next(one for one in SCREWS if one.nominal == self.nominal)


class Area(Record, kw_only=True):
    """An upright rectangle of the plate in which no wire may run; `span` is its statement.

    `x` and `y` are its upper left corner, from that of the plate. It turns with no cluster.
    """

    x: Solder[float]
    y: Solder[float]
    width: Solder[float]
    height: Solder[float]
    span: Span


class ControllerPlace(Record, kw_only=True):
    """Where the controller lies below the plate, seen from the front; `span` is its statement.

    `x` and `y` are the middle of the board's edge with its USB socket, which points up the plate,
    or is turned from there by `turned` degrees clockwise, 0 to below 360. The board lies with its
    parts away from the plate. It is the plate's own and turns with no cluster.
    """

    x: Solder[float]
    y: Solder[float]
    turned: Solder[float]
    span: Span


MARGIN_MM, RADIUS_MM = 6.0, 2.0
"""How far outside of all keys' fields and screws' heads the plate ends, and how round its corners
are, where the file says nothing (a choice)."""


class Outline(Record, kw_only=True):
    """Where the plate ends, in millimetres; `span` is the statement."""

    margin: Solder[float]
    radius: Solder[float]
    span: Span


class CornerOutline(Record, kw_only=True):
    """Where the plate ends, from corner to corner and back to the first; `span` is the statement.

    The corners are in key units from the plate's upper left corner, either way round, and `radius`
    in millimetres. Its sides meet nowhere but at their corners.
    """

    corners: Solder[tuple[tuple[float, float], ...]]
    radius: Solder[float]
    span: Span


class Plate(Record):
    """All lines of switches, and the clusters that some of them belong to, in file order.

    `holes` and `keep_clear` say where no wire may run on its back, and `controller` where the
    controller lies, and `outline` where the plate ends: None where that is not said. The keys
    `without_stabiliser` have none, however long they are. `cut_out` is what each switch sits in
    before it is turned, and `thickness` that of a plate to print, in millimetres. `components` says
    where lights and knobs are.
    """

    lines: Reflash[tuple[PlateLine, ...]]
    clusters: Cosmetic[tuple[Cluster, ...]]
    span: Span
    holes: Solder[AnyOrder[Hole]] = ()
    keep_clear: Solder[AnyOrder[Area]] = ()
    controller: Solder[ControllerPlace | None] = None
    outline: Solder[Outline | CornerOutline | None] = None
    without_stabiliser: Solder[AnyOrder[Word]] = ()
    cut_out: Solder[CutOutSize] = CUT_OUT_MM
    thickness: Solder[float] = THICKNESS_MM
    components: Solder[AnyOrder[ComponentPlace]] = ()

    @property
    def keys(self) -> tuple[Key, ...]:
        """Every key, in plate order."""
        return tuple(key for line in self.lines for key in line.keys)

    @cached_property
    def key_of(self) -> dict[str, Key]:
        """Each key by its name."""
        return {key.name.text: key for key in self.keys}
