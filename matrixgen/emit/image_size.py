"""How large an image will be, foretold from what was measured: `templates/image_sizes.json`.

What tables take follows from the C types of `tables.h`. What the code takes follows from what a
keyboard uses: each use has a size of its own, and some pairs of them one more, since a compiler
makes of both together something else than of each. `python -m tests.sizes` builds images and writes
the file anew; a test compares fresh builds with it.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache

from matrixgen.emit.firmware_fields import FirmwareView
from matrixgen.emit.together_view import MOST_KEYS
from matrixgen.emit.turn_view import STROKE_BYTES
from matrixgen.families import CompilerKind
from matrixgen.record import Record
from matrixgen.resources import resource

PAIRS = (
    ("16 layers", "base changes"),
    ("16 layers", "joint layers"),
    ("16 layers", "once"),
    ("16 layers", "taps"),
    ("16 layers", "once lasts"),
    ("32 layers", "base changes"),
    ("32 layers", "base remembered"),
    ("32 layers", "joint layers"),
    ("32 layers", "once"),
    ("32 layers", "once lasts"),
    ("32 layers", "taps"),
    ("base changes", "joint layers"),
    ("base changes", "once"),
    ("base changes", "taps"),
    ("boot-loader key", "boot-loader hold"),
    ("driven lines", "sensed ports"),
    ("in turn", "many actions"),
    ("in turn", "many keys"),
    ("in turn", "media"),
    ("in turn", "once"),
    ("in turn", "taps"),
    ("joint layers", "once"),
    ("joint layers", "once lasts"),
    ("many actions", "taps"),
    ("many keys", "taps"),
    ("media", "once"),
    ("media", "taps"),
    ("media", "pointer"),
    ("in turn", "pointer"),
    ("once", "pointer"),
    ("pointer", "taps"),
    ("once", "taps"),
    ("sensed lines", "sensed ports"),
    ("one layer", "taps"),
    ("in turn", "presses"),
    ("in turn", "with modifiers"),
    ("media", "with modifiers"),
    ("once", "presses"),
    ("once", "with modifiers"),
    ("presses", "taps"),
    ("presses", "with modifiers"),
    ("taps", "with modifiers"),
    ("16 senses", "sensed lines"),
    ("32 senses", "sensed lines"),
    ("16 senses", "boot-loader hold"),
    ("32 senses", "boot-loader hold"),
)
"""Uses that share variables or calls, so that both together take more or less than each."""


class Measured(Record, kw_only=True):
    """What was measured of a compiler's images for some chips.

    `title` is the compiler and its version, `images` how many were built. `flash` and `ram` have
    the bytes of each use. `flash_off` and `ram_off` are the most bytes by which an image that was
    left out of the fit differs from what the others foretell of it.
    """

    chips: tuple[str, ...]
    compiler: CompilerKind
    title: str
    images: int
    flash: Mapping[str, float]
    ram: Mapping[str, float]
    flash_off: int
    ram_off: int

    def flash_of(self, view: FirmwareView) -> int:
        """Return the bytes of flash that a keyboard's image will take."""
        return table_bytes(view) + _sum(self.flash, code_uses(view))

    def ram_of(self, view: FirmwareView) -> int:
        """Return the bytes of RAM that its variables will take."""
        return _sum(self.ram, ram_uses(view))


def measured(chip: str, compiler: CompilerKind) -> Measured | None:
    """Return what was measured for a chip (in lower case) by a compiler; None where nothing was."""
    rows = (one for one in all_measured() if one.compiler == compiler and chip in one.chips)
    return next(rows, None)


@cache
def all_measured() -> tuple[Measured, ...]:
    """Return all that was measured."""
    text = (resource("templates") / "image_sizes.json").read_text("utf-8")
    return tuple(
        Measured(**{**row, "chips": tuple(row["chips"])}) for row in json.loads(text)["measured"]
    )


def _sum(sizes: Mapping[str, float], uses: Mapping[str, float]) -> int:
    return round(sum(size * uses.get(name, 0.0) for name, size in sizes.items()))


def table_bytes(view: FirmwareView) -> int:
    """Return what a keyboard's tables take of flash, in bytes, packed as `tables.h` has them."""
    key, action, layer = view.key_bits // 8, view.action_bits // 8, view.layer_bits // 8
    timed, keys = view.timed, len(view.key_names)
    return (
        len(view.drives) * len(view.senses) * key
        + len(view.layers) * keys * action
        + (len(view.actions) + 1) * 3
        + len(view.product_bytes)
        + len(view.maker_bytes)
        + view.media.descriptor_bytes
        + view.pointer.table_bytes
        + timed.asks_hands * keys
        + _listed(len(timed.tap_holds), 2 * action + 5)
        + len(timed.first_seconds) * (3 * action + 2)
        + _listed(len(timed.joint_layers), layer + 1)
        + view.in_turn.length * STROKE_BYTES
        + sum(len(one.rows) for one in view.with_modifiers) * (action + 1)
        + len(view.together.rows) * (action + 3 + MOST_KEYS * key)
        + _listed(len(view.hold), view.sense_bits // 8 + 1)
        + len(view.knobs)
        + view.lights.table_bytes(layer)
    )


def _listed(rows: int, row_bytes: int) -> int:
    """Return the bytes of a list that ends with a row of zeros; an empty one is not linked."""
    return (rows + 1) * row_bytes if rows else 0


def code_uses(view: FirmwareView) -> dict[str, float]:
    """Return what a keyboard uses of the code: 1 for each use, numbers of lines, and pairs."""
    uses = {name: float(number) for name, number in _single_uses(view).items()}
    pairs = {f"{one} and {other}": uses[one] * uses[other] for one, other in PAIRS}
    return {**uses, **pairs, f"on {view.chip}": 1.0}


def _single_uses(view: FirmwareView) -> dict[str, int]:
    timed, media = view.timed, view.media
    return {
        "any": 1,
        "driven lines": len(view.drives),
        "sensed lines": len(view.senses),
        "sensed ports": len(view.sense_ports),
        "sensed shifts": len(view.sense_shifts),
        "16 senses": view.sense_bits == 16,
        "32 senses": view.sense_bits == 32,
        "one layer": len(view.layers) == 1,
        "16 layers": view.layer_bits == 16,
        "32 layers": view.layer_bits == 32,
        "many keys": view.key_bits == 16,
        "many actions": view.action_bits == 16,
        "long times": timed.moment_bits == 16,
        "press time": timed.press_ms > 0,
        "media": bool(media.keys),
        "media of both kinds": len(media.reports) == 2,
        "long media descriptor": view.answer_bits == 16,
        "pointer": view.pointer.is_there,
        "taps": bool(timed.tap_holds),
        "presses": bool(timed.first_seconds),
        "hands": timed.asks_hands,
        "once": timed.has_once,
        "once lasts": timed.once_ms > 0,
        "base changes": timed.changes_base,
        "base remembered": timed.remembers_base,
        "joint layers": bool(timed.joint_layers),
        "in turn": bool(view.in_turn.rows),
        "with modifiers": bool(view.with_modifiers),
        "together": bool(view.together.rows),
        "knobs": bool(view.knobs),
        "knobs' contacts": 2 * len(view.knobs),
        "knobs and a long scan": "HAS_LONG_SCAN" in view.features,
        "lights": bool(view.lights.lights),
        "lights' pins": len(view.lights.lights),
        "lights of locks": view.lights.features["HAS_LOCK_LIGHTS"],
        "lights of layers": view.lights.features["HAS_LAYER_LIGHTS"],
        "boot-loader key": view.has_boot_loader_key,
        "boot-loader hold": bool(view.hold),
    }


def ram_uses(view: FirmwareView) -> dict[str, float]:
    """Return what a keyboard uses of variables: that of the code, and what grows with its size."""
    keys = len(view.key_names)
    return {
        **code_uses(view),
        "keys": float(keys),
        "bytes of driven lines": float(len(view.drives) * view.sense_bits // 8),
        "bytes of keys' actions": float(keys * view.action_bits // 8),
        "bytes of knobs": 3.0 * len(view.knobs),
        "bytes of consumer keys": float(view.media.bytes_of(1)),
        "bytes of system keys": float(view.media.bytes_of(2)),
    }
