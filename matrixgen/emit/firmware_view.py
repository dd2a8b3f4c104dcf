"""A keyboard and a controller as the firmware's templates see them: plain numbers and comments."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import ceil

from matrixgen import __version__
from matrixgen.boards.profile import Profile
from matrixgen.emit.action_views import (
    ActionView,
    LayerView,
    action_views,
    layer_views,
    number_actions,
)
from matrixgen.emit.c_names import row_width, usb_string
from matrixgen.emit.settling import settle_us
from matrixgen.model import Axis, Keyboard, Line, Matrix, matrix_of

TEST_VENDOR_ID, TEST_PRODUCT_ID = 0x1209, 0x0001
"""For private testing only (pid.codes, page 1209/0001): used where a file has no ids of its own."""

MAKER = "Made by hand"
"""The maker string of a file that names none."""


@dataclass(frozen=True, slots=True)
class LineView:
    """A line as the firmware numbers it: `port` and `bit` are those of `pin`, by its name."""

    number: int
    name: str
    axis: Axis
    pin: str
    port: str
    bit: int
    keys: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HoldView:
    """A key that starts the boot loader along with others: its driven line, its sensed line."""

    name: str
    drive: int
    sense: int


@dataclass(frozen=True, slots=True)
class FirmwareView:
    """What every template of the firmware gets, as `view`.

    `key_at` has, for each driven line, the key number at each sensed line, or None.
    `plate_rows` has the key numbers of each line of the plate. `port` is the folder of the chip
    family under `templates/firmware/ports`.
    """

    product: str
    maker: str
    vendor_id: int
    product_id: int
    drives: tuple[LineView, ...]
    senses: tuple[LineView, ...]
    key_names: tuple[str, ...]
    plate_rows: tuple[tuple[int, ...], ...]
    key_at: tuple[tuple[int | None, ...], ...]
    actions: tuple[ActionView, ...]
    layers: tuple[LayerView, ...]
    hold: tuple[HoldView, ...]
    double_reset: bool
    debounce_ms: int
    settle_us: int
    tool_version: str
    source_name: str
    chip: str
    port: str
    profile: Profile

    def keys_of(self, drive: int) -> tuple[str, ...]:
        """Return the keys' names on a driven line, by sensed line; `-` where there is none."""
        return tuple("-" if key is None else self.key_names[key] for key in self.key_at[drive])

    @property
    def has_boot_loader_key(self) -> bool:
        """Whether a key starts the boot loader by its action."""
        return any(action.kind == "ACTION_BOOT_LOADER" for action in self.actions)

    @property
    def crossing_width(self) -> int:
        """How wide a cell of the crossing table is, in characters."""
        return row_width((*self.key_names, *(line.name for line in self.senses)), len("NO_KEY, "))

    @property
    def cell_width(self) -> int:
        """How wide a cell of a layer's table is, in characters."""
        words = (word for layer in self.layers for word in layer.words)
        return row_width(words, len(f"{len(self.actions)}, "))

    @property
    def product_bytes(self) -> tuple[int, ...]:
        """The product's USB string descriptor."""
        return usb_string(self.product)

    @property
    def maker_bytes(self) -> tuple[int, ...]:
        """The maker's USB string descriptor."""
        return usb_string(self.maker)


def firmware_view(keyboard: Keyboard, profile: Profile, port: str | None = None) -> FirmwareView:
    """Return the view of a keyboard that the rules have passed.

    `port` overrides the profile's own folder, so that the tests can build the same keyboard for
    the host.
    """
    matrix = matrix_of(keyboard)
    actions = number_actions(keyboard)
    identity = keyboard.identity
    settle = keyboard.wiring.settle_us
    return FirmwareView(
        product=identity.name.text,
        maker=identity.maker.text if identity.maker else MAKER,
        vendor_id=_or(identity.vendor_id, TEST_VENDOR_ID),
        product_id=_or(identity.product_id, TEST_PRODUCT_ID),
        drives=_lines(matrix.drives, profile),
        senses=_lines(matrix.senses, profile),
        key_names=tuple(key.name.text for key in keyboard.keys),
        plate_rows=_plate_rows(keyboard),
        key_at=_key_at(keyboard, matrix),
        actions=action_views(keyboard, actions),
        layers=layer_views(keyboard, actions),
        hold=_hold(keyboard, matrix),
        double_reset=keyboard.boot_loader.double_reset is not None,
        debounce_ms=ceil(keyboard.debounce_ms.value),
        settle_us=settle_us(matrix, profile) if settle is None else ceil(settle.value),
        tool_version=__version__,
        source_name=re.split(r"[/\\]", keyboard.source.path)[-1],
        chip=profile.chip.lower(),
        port=port or profile.port or profile.family,
        profile=profile,
    )


def _or(given: int | None, default: int) -> int:
    return default if given is None else given


def _lines(lines: tuple[Line, ...], profile: Profile) -> tuple[LineView, ...]:
    return tuple(_line(number, line, profile) for number, line in enumerate(lines))


def _line(number: int, line: Line, profile: Profile) -> LineView:
    word = line.pin.text if line.pin else ""
    known = profile.pin(word)
    pin = known.name if known else word
    port, bit = _register(pin)
    keys = tuple(key.text for key in line.visits)
    return LineView(number, line.name.text, line.axis, pin, port, bit, keys)


def _register(pin: str) -> tuple[str, int]:
    """Return the port letter and bit of an AVR's pin `PD0`, or "" and 5 for a pin `GP5`."""
    avr = re.fullmatch(r"P([A-K])([0-7])", pin)
    if avr:
        return avr[1], int(avr[2])
    number = re.search(r"\d+$", pin)
    return "", int(number[0]) if number else 0


def _hold(keyboard: Keyboard, matrix: Matrix) -> tuple[HoldView, ...]:
    """Return the keys that start the boot loader, in the file's order."""
    names = (word.text for word in keyboard.boot_loader.hold)
    crossings = ((name, matrix.crossings[name]) for name in names)
    return tuple(HoldView(name, at.drive, at.sense) for name, at in crossings)


def _plate_rows(keyboard: Keyboard) -> tuple[tuple[int, ...], ...]:
    numbers = iter(range(len(keyboard.keys)))
    return tuple(tuple(next(numbers) for _ in line.keys) for line in keyboard.plate_lines)


def _key_at(keyboard: Keyboard, matrix: Matrix) -> tuple[tuple[int | None, ...], ...]:
    number_of = {key.name.text: number for number, key in enumerate(keyboard.keys)}
    found = {(c.drive, c.sense): number_of[key] for key, c in matrix.crossings.items()}
    return tuple(
        tuple(found.get((drive, sense)) for sense in range(len(matrix.senses)))
        for drive in range(len(matrix.drives))
    )
