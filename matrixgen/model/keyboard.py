"""A keyboard: geometry, wiring, key actions. It knows of no controller; see `design.py`."""

from __future__ import annotations

from functools import cached_property

from matrixgen.model.actions import Action, with_parts
from matrixgen.model.layers import Cell, Layer, NamedAction
from matrixgen.model.plate import Key, Plate
from matrixgen.model.text import Number, Span, Word
from matrixgen.model.wiring import Wiring
from matrixgen.record import Record


class Identity(Record):
    """What the keyboard says of itself on USB. `name` is its product string, None in a draft."""

    name: Word | None
    maker: Word | None
    vendor_id: int | None
    product_id: int | None

    @property
    def product(self) -> str:
        """The product string: empty in a draft that has no name yet."""
        return self.name.text if self.name else ""


class BootLoader(Record):
    """How the boot loader is entered, besides by keys whose action it is; not at all by default.

    `hold` has the keys that start it once they have been down together for a second, and
    `hold_span` is that statement. `double_reset` is the statement that asks for it at two presses
    of the reset button within half a second.
    """

    hold: tuple[Word, ...] = ()
    hold_span: Span | None = None
    double_reset: Span | None = None


class Keyboard(Record, kw_only=True):
    """Everything that is the keyboard's own, wherever it is mounted.

    It is made by the source room once every name in it is known to resolve, so whoever holds one
    may look names up without asking first whether they exist. Whether it would *work* is for the
    rules to say.

    `layers[0]` is always the base layer. Every key has an action there: the one the file gives, or
    else the one its name says. Later layers lie on top of earlier ones. Where the file has no
    `layer base`, that layer's span is the plate's.

    `debounce_ms` is how long a key must be open for its release to count; `press_ms` how long it
    must be closed for a press, None where the first reading counts. `once_ms` is how long what a
    `once` key left on waits for the next key, None for ever. `remember_base` is the statement that
    asks for a changed base to outlast a power cut.
    """

    identity: Identity
    debounce_ms: Number
    plate: Plate
    wiring: Wiring
    actions: tuple[NamedAction, ...]
    layers: tuple[Layer, ...]
    boot_loader: BootLoader = BootLoader()
    press_ms: Number | None = None
    once_ms: Number | None = None
    remember_base: Span | None = None

    @cached_property
    def keys(self) -> tuple[Key, ...]:
        """Every key, in plate order."""
        return self.plate.keys

    @cached_property
    def cells(self) -> tuple[Cell, ...]:
        """Every cell, layer by layer."""
        return tuple(cell for layer in self.layers for cell in layer.cells)

    @cached_property
    def every_action(self) -> frozenset[Action]:
        """What any key does on any layer, and what those actions contain."""
        return frozenset(part for cell in self.cells for part in with_parts(cell.action))
