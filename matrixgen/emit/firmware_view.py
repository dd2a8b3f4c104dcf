"""A keyboard and a controller as the firmware's templates see them: plain numbers and comments."""

from __future__ import annotations

import re

from matrixgen.boards import Mounted, Pin
from matrixgen.circuit.knob_times import KnobTimes
from matrixgen.circuit.settling import Settling
from matrixgen.emit.action_views import (
    ActionView,
    LayerView,
    action_views,
    first_together,
    layer_views,
    number_actions,
)
from matrixgen.emit.c_text import row_width
from matrixgen.emit.features import features_of
from matrixgen.emit.knob_view import KnobView, knob_views, with_knobs_in_order
from matrixgen.emit.light_views import LightsView, lights_view
from matrixgen.emit.line_views import line_views, pulled_up
from matrixgen.emit.media_view import MediaTable, media_table
from matrixgen.emit.pointer_view import PointerView, pointer_view
from matrixgen.emit.timed_views import TimedView, timed_view
from matrixgen.emit.together_view import TogetherView, together_view
from matrixgen.emit.tree_view import TreeView
from matrixgen.emit.turn_view import TurnView, turn_view
from matrixgen.emit.with_view import WithRows, with_views
from matrixgen.families import FAMILIES
from matrixgen.model import Contact, Keyboard, Matrix, matrix_of, starts_boot_loader


class FirmwareView(TreeView, kw_only=True):
    """What every template of a keyboard's firmware gets.

    `key_at` has, for each driven line, the key number at each sensed line, or None.
    `key_names` and `plate_rows`, which has the key numbers of each line of the plate, have the
    steps of each knob last.
    """

    key_names: tuple[str, ...]
    plate_rows: tuple[tuple[int, ...], ...]
    key_at: tuple[tuple[int | None, ...], ...]
    actions: tuple[ActionView, ...]
    layers: tuple[LayerView, ...]
    media: MediaTable
    pointer: PointerView
    hold: tuple[Contact, ...]
    has_boot_loader_key: bool
    double_reset: bool
    knobs: tuple[KnobView, ...]
    debounce_ms: int
    timed: TimedView
    in_turn: TurnView
    with_modifiers: tuple[WithRows, ...]
    lights: LightsView
    together: TogetherView
    scan_is_long: bool

    source_folders = ("engine", "engine/behaviours", "port", "tables", "usb")
    """Where the C files of the tree lie, but for `main.c`."""

    def keys_of(self, drive: int) -> tuple[str, ...]:
        """Return the keys' names on a driven line, by sensed line; `-` where there is none."""
        return tuple("-" if key is None else self.key_names[key] for key in self.key_at[drive])

    @property
    def key_count(self) -> int:
        """How many keys the plate has."""
        return len(self.key_names) - 2 * len(self.knobs)

    @property
    def low_ns(self) -> int:
        """How long a driven line is low before the sensed lines are read."""
        return FAMILIES[self.port].low_ns

    @property
    def features(self) -> tuple[str, ...]:
        """The names of what it has, as conditions in the C ask for them."""
        return features_of(self)

    @property
    def second_interface(self) -> str:
        """What the second interface is for, in words."""
        both = ["the media keys"] * bool(self.media.keys) + ["the pointer"] * self.pointer.is_there
        return " and ".join(both)

    @property
    def answer_bits(self) -> int:
        """How many bits a number has that is greater than the longest answer to the host."""
        return 8 if self.media.descriptor_bytes + self.pointer.descriptor_bytes < 0xFF else 16

    @property
    def sense_bits(self) -> int:
        """How many bits a number has that has one for each sensed line."""
        return _bits_for(len(self.senses))

    @property
    def layer_bits(self) -> int:
        """How many bits a number has that has one for each layer."""
        return _bits_for(len(self.layers))

    @property
    def key_bits(self) -> int:
        """How many bits a key's number has: its largest value means that there is no key."""
        return 8 if len(self.key_names) <= 0xFE else 16

    @property
    def knob_bits(self) -> int:
        """How many bits a number has that has two for each knob."""
        return _bits_for(2 * len(self.knobs))

    @property
    def action_bits(self) -> int:
        """How many bits an action's number has."""
        return 8 if len(self.actions) <= 0xFE else 16

    @property
    def crossing_width(self) -> int:
        """How wide a cell of the crossing table is, in characters."""
        return row_width((*self.key_names, *(line.name for line in self.senses)), len("NO_KEY, "))

    @property
    def cell_width(self) -> int:
        """How wide a cell of a layer's table is, in characters."""
        words = (word for layer in self.layers for word in layer.words)
        return row_width(words, len(f"{len(self.actions)}, "))


def firmware_view(mounted: Mounted, source_path: str, port: str | None = None) -> FirmwareView:
    """Return the view of a keyboard that the rules have passed.

    `source_path` is the file it was read from. `port` overrides the profile's own folder, so that
    the tests can build the same keyboard for the host.
    """
    mounted = with_knobs_in_order(mounted)
    keyboard, profile = mounted.keyboard, mounted.profile
    matrix, numbers = matrix_of(keyboard), number_actions(keyboard)
    settings = keyboard.effective
    family = profile.family_record
    media, settle_us = media_table(keyboard), Settling(mounted, matrix).firmware_us
    drives = line_views(matrix.drives, mounted, family)
    senses = line_views(matrix.senses, mounted, family)
    knobs = knob_views(mounted, family)
    held = {word.text for word in keyboard.boot_loader.hold}
    contacts = [contact for knob in knobs for contact in knob.contacts]
    return FirmwareView(
        product=keyboard.identity.product,
        maker=settings.maker,
        vendor_id=settings.vendor_id,
        product_id=settings.product_id,
        drives=drives,
        senses=senses,
        pulled_up=pulled_up((*drives, *senses, *contacts), _left_free(mounted), family),
        key_names=keyboard.turned_or_pressed,
        plate_rows=_plate_rows(keyboard),
        key_at=_key_at(keyboard, matrix),
        actions=action_views(keyboard, numbers, media.numbers),
        layers=layer_views(keyboard, numbers),
        media=media,
        pointer=pointer_view(keyboard),
        hold=tuple(one for one in matrix.contacts if one.key in held),
        has_boot_loader_key=any(map(starts_boot_loader, numbers)),
        double_reset=keyboard.boot_loader.double_reset is not None,
        knobs=knobs,
        debounce_ms=settings.debounce_ms,
        timed=timed_view(keyboard, numbers),
        in_turn=turn_view(keyboard, numbers),
        with_modifiers=with_views(numbers),
        lights=lights_view(mounted, family),
        together=together_view(keyboard, numbers, first_together(numbers)),
        settle_us=settle_us,
        scan_is_long=KnobTimes(mounted, matrix, settle_us).scan_is_long,
        source_name=re.split(r"[/\\]", source_path)[-1],
        port=port or profile.port or profile.family,
        profile=profile,
    )


def _left_free(mounted: Mounted) -> list[Pin]:
    """Return the free pins of the controller, without those that a light drives."""
    driven = {pin for light in mounted.keyboard.wiring.lights for pin in mounted.pins_of(light)}
    return [pin for pin in mounted.profile.free_pins if pin not in driven]


def _bits_for(places: int) -> int:
    return 8 if places <= 8 else 16 if places <= 16 else 32


def _plate_rows(keyboard: Keyboard) -> tuple[tuple[int, ...], ...]:
    numbers = iter(range(len(keyboard.turned_or_pressed)))
    rows = (*(line.keys for line in keyboard.plate.lines), *(one.steps for one in keyboard.knobs))
    return tuple(tuple(next(numbers) for _ in row) for row in rows)


def _key_at(keyboard: Keyboard, matrix: Matrix) -> tuple[tuple[int | None, ...], ...]:
    number_of = {key.name.text: number for number, key in enumerate(keyboard.keys)}
    found = {(one.drive, one.sense): number_of[one.key] for one in matrix.contacts}
    return tuple(
        tuple(found.get((drive, sense)) for sense in range(len(matrix.senses)))
        for drive in range(len(matrix.drives))
    )
