"""A keyboard: geometry, wiring, key actions. It knows of no controller; see `design.py`."""

from __future__ import annotations

from functools import cached_property
from math import ceil

from matrixgen.model.actions import (
    Action,
    ChangeBase,
    InTurn,
    OnceLayer,
    OnceModifiers,
    Pointer,
    with_parts,
)
from matrixgen.model.component import PINS_OF, Component, ComponentPlace
from matrixgen.model.knob import Knob
from matrixgen.model.layers import Cell, Layer, NamedAction, Together
from matrixgen.model.plate import Key, Plate
from matrixgen.model.speeds import POINTER_SPEED, WHEEL_SPEED, Speed, speed_of
from matrixgen.model.text import Number, Span, Word
from matrixgen.model.wiring import Wiring
from matrixgen.model.work import AnyOrder, Cosmetic, Derived, Reflash
from matrixgen.record import Record

TEST_VENDOR_ID, TEST_PRODUCT_ID = 0x1209, 0x0001
"""For private testing only (pid.codes, page 1209/0001): used where a file has no ids of its own."""

BENCH_PRODUCT_ID = 0x0002
"""Of the bench firmware, with the same vendor: another one, since hosts remember what an id was.

pid.codes keeps 1209:0001 to 1209:0010 for private testing, from memory.
"""

PACE_MS = 4
"""How long each report of what is typed in turn lasts, unless the file says it.

Linux keeps 64 events for each program that reads a keyboard, and a key that goes down or up makes
three (drivers/input/evdev.c, from memory): so one that does not read for 80 ms loses none.
"""

MAKER = "Made by hand"
"""The maker string of a file that names none."""


class Identity(Record):
    """What the keyboard says of itself on USB. `name` is its product string, None in a draft."""

    name: Reflash[Word | None]
    maker: Reflash[Word | None]
    vendor_id: Reflash[int | None]
    product_id: Reflash[int | None]

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

    hold: Reflash[AnyOrder[Word]] = ()
    hold_span: Derived[Span | None] = None
    double_reset: Reflash[Span | None] = None


class Effective(Record, kw_only=True):
    """What an image has of the settings, by their names: defaults filled in, times rounded up.

    Times are whole milliseconds, 0 for none; a setting that no key asks for has no effect.
    """

    maker: str
    vendor_id: int
    product_id: int
    debounce_ms: int
    press_ms: int
    once_ms: int
    pace_ms: int
    remember_base: bool
    pointer: Speed | None
    wheel: Speed | None


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
    `once` key left on waits for the next key, None for ever. `pace_ms` is how long each report of
    what is typed in turn lasts at least. `remember_base` is the statement that
    asks for a changed base to outlast a power cut. `hold_after_ms` and `roll_ms` are what keys with
    two meanings have unless they say others, `together_ms` what sets of keys have. `computer` is
    the layout that the computer is set to, by X11's name, and `system` what runs there, None for
    any: what letters in the file mean is in the actions. `pointer` and `wheel` are speeds in steps
    a second: one, or a first and a last one and the ms between; none if the file does not say it.
    """

    identity: Identity
    debounce_ms: Reflash[Number]
    plate: Plate
    wiring: Wiring
    actions: Cosmetic[tuple[NamedAction, ...]]
    layers: Reflash[tuple[Layer, ...]]
    boot_loader: BootLoader = BootLoader()
    press_ms: Reflash[Number | None] = None
    once_ms: Reflash[Number | None] = None
    pace_ms: Reflash[Number | None] = None
    remember_base: Reflash[Span | None] = None
    hold_after_ms: Cosmetic[Number | None] = None
    roll_ms: Cosmetic[Number | None] = None
    together_ms: Cosmetic[Number | None] = None
    computer: Cosmetic[Word | None] = None
    system: Cosmetic[Word | None] = None
    pointer: Reflash[tuple[Number, ...]] = ()
    wheel: Reflash[tuple[Number, ...]] = ()

    @cached_property
    def keys(self) -> tuple[Key, ...]:
        """Every key, in plate order."""
        return self.plate.keys

    @property
    def wants_diodes(self) -> bool:
        """Whether some key is to have a diode."""
        without = {word.text for word in self.wiring.without_diode}
        return any(key.name.text not in without for key in self.keys)

    @cached_property
    def place_of_key(self) -> dict[str, int]:
        """The place of each key on the plate, from 0, by its name."""
        return {key.name.text: place for place, key in enumerate(self.keys)}

    @cached_property
    def cells(self) -> tuple[Cell | Together, ...]:
        """Every cell, layer by layer, those of several keys after the others."""
        return tuple(cell for layer in self.layers for cell in layer.every_cell)

    @property
    def of_components(self) -> tuple[Component | ComponentPlace, ...]:
        """What is said of lights and knobs: as they are wired, and where they are on the plate."""
        return (*self.wiring.components, *self.plate.components)

    @property
    def component_pins(self) -> int:
        """How many pins lights and knobs need, those too that are only on the plate yet."""
        return sum({one.called: PINS_OF[one.kind] for one in self.of_components}.values())

    @cached_property
    def knobs(self) -> tuple[Knob, ...]:
        """Every knob, those too that are only on the plate yet: they come last."""
        wired = {knob.name.text for knob in self.wiring.knobs}
        places = (one for one in self.plate.components if one.kind == Knob.kind)
        unwired = (Knob(name=p.name, span=p.span) for p in places if p.name.text not in wired)
        return (*self.wiring.knobs, *unwired)

    @cached_property
    def turned_or_pressed(self) -> tuple[str, ...]:
        """What layers give actions: the keys in plate order, then both steps of each knob."""
        steps = (step for knob in self.knobs for step in knob.steps)
        return (*(key.name.text for key in self.keys), *steps)

    @cached_property
    def every_action(self) -> frozenset[Action]:
        """What any key does on any layer, and what those actions contain."""
        return frozenset(part for cell in self.cells for part in with_parts(cell.action))

    def has(self, *kinds: type[Action]) -> bool:
        """Whether a key has an action of some kinds."""
        return any(isinstance(action, kinds) for action in self.every_action)

    @cached_property
    def effective(self) -> Effective:
        """The settings as an image has them."""
        identity = self.identity
        return Effective(
            maker=identity.maker.text if identity.maker else MAKER,
            vendor_id=_or(identity.vendor_id, TEST_VENDOR_ID),
            product_id=_or(identity.product_id, TEST_PRODUCT_ID),
            debounce_ms=_milliseconds(self.debounce_ms),
            press_ms=_milliseconds(self.press_ms),
            once_ms=_milliseconds(self.once_ms) if self.has(OnceLayer, OnceModifiers) else 0,
            pace_ms=_pace_ms(self.pace_ms) if self.has(InTurn) else 0,
            remember_base=self.remember_base is not None and self.has(ChangeBase),
            pointer=speed_of(self.pointer, POINTER_SPEED) if self.has(Pointer) else None,
            wheel=speed_of(self.wheel, WHEEL_SPEED) if self.has(Pointer) else None,
        )


def _or(given: int | None, default: int) -> int:
    return default if given is None else given


def _pace_ms(given: Number | None) -> int:
    return _milliseconds(given) if given else PACE_MS


def _milliseconds(given: Number | None) -> int:
    return ceil(given.value) if given else 0
