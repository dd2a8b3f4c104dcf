"""What a keyboard is: geometry, wiring, key actions. Frozen records, each with its place.

A `Keyboard` is made by the source room once every name in it is known to resolve, so whoever holds
one may look names up without asking first whether they exist. Whether the keyboard would *work* is
for the rules to say.
"""

from __future__ import annotations

from typing import Literal

from matrixgen.model.actions import Action, Press
from matrixgen.model.record import record
from matrixgen.model.span import Number, SourceText, Span, Word

Axis = Literal["row", "column"]

BASE = "base"
"""The name of the layer that is always on and lies below all others."""


@record
class Key:
    """One switch. Lengths are in key units (19.05 mm, common practice); y grows downwards.

    `x` and `y` are its top left corner and `turned` its angle in degrees clockwise about
    (`pivot_x`, `pivot_y`), all on the plate. `plate_line` counts the `line`s of the plate from 0,
    over all clusters; that is also the row of a layer's picture. `own_action` is what the name
    itself says, or None where the name is no usage.
    """

    name: Word
    x: float
    y: float
    width: float
    height: float
    turned: float
    pivot_x: float
    pivot_y: float
    plate_line: int
    own_action: Press | None


@record
class PlateLine:
    """One `line` of the plate: its keys from left to right; `span` is the whole line."""

    keys: tuple[Key, ...]
    span: Span


@record
class Line:
    """A row or column wire: the pin it ends on and the keys it visits, in soldering order.

    In a file of several controllers `pins` has the pin on each, in the keyboard's order, or none
    at all, and `pin` is the first; see `variants`.
    """

    axis: Axis
    name: Word
    pin: Word | None
    colour: Word | None
    visits: tuple[Word, ...]
    span: Span
    pins: tuple[Word, ...] = ()


@record
class DiodeRule:
    """Which diode sits at each switch, and towards which lines its band (cathode) points."""

    part: Word
    band_toward: Axis
    span: Span


@record
class Wiring:
    """The matrix as it is soldered. `drive` says which lines the firmware pulls low in turn."""

    drive: Axis
    drive_span: Span
    diodes: DiodeRule | None
    without_diode: tuple[Word, ...]
    reversed: tuple[Word, ...]
    settle_us: Number | None
    lines: tuple[Line, ...]
    span: Span

    def of_axis(self, axis: Axis) -> tuple[Line, ...]:
        """Return the row wires or the column wires, in file order."""
        return tuple(line for line in self.lines if line.axis == axis)

    @property
    def sense(self) -> Axis:
        """The lines that the firmware reads while it pulls a driven line low."""
        return "column" if self.drive == "row" else "row"


@record
class NamedAction:
    """A name of the `actions` block and what it stands for."""

    name: Word
    action: Action
    span: Span


@record
class Assignment:
    """`key = cell` of a layer; in a picture, the cell that stands in the key's place."""

    key: Word
    cell: Word
    action: Action


@record
class Layer:
    """One layer: only the keys that it gives an action of its own."""

    name: Word
    cells: tuple[Assignment, ...]
    is_picture: bool
    span: Span


@record
class Identity:
    """What the keyboard says of itself on USB. `name` is its product string."""

    name: Word
    maker: Word | None
    vendor_id: int | None
    product_id: int | None


@record
class BootLoader:
    """How the boot loader is entered, besides by keys whose action it is; not at all by default.

    `hold` has the keys that start it once they have been down together for a second, and
    `hold_span` is that statement. `double_reset` is the statement that asks for it at two presses
    of the reset button within half a second.
    """

    hold: tuple[Word, ...] = ()
    hold_span: Span | None = None
    double_reset: Span | None = None


@record
class Keyboard:
    """A whole file, understood.

    `layers[0]` is always the base layer, and every key has an action there: the one the file
    gives, or else the one its name says; then the cell is the key's own name, on the plate. Later
    layers lie on top of earlier ones. Where the file has no `layer base`, that layer's span is the
    plate's. A key of the base layer whose action the file gives has a cell in that layer's span.

    A file may name several `controllers`; `controller` is the first of them, and `variants` makes
    a keyboard for each.
    """

    identity: Identity
    controller: Word
    debounce_ms: Number
    allowed: tuple[Word, ...]
    plate_lines: tuple[PlateLine, ...]
    wiring: Wiring
    actions: tuple[NamedAction, ...]
    layers: tuple[Layer, ...]
    source: SourceText
    span: Span
    boot_loader: BootLoader = BootLoader()
    controllers: tuple[Word, ...] = ()

    @property
    def keys(self) -> tuple[Key, ...]:
        """Every key, in plate order."""
        return tuple(key for line in self.plate_lines for key in line.keys)
