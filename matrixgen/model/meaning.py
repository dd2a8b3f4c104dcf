"""What a file says, without where it says it: two files that mean the same are equal here.

Left out is whatever can be written in two ways: places, comments, runs of keys, the corner that a
cluster is measured from, a layer's form as a list or a picture, an action's name in a cell, and a
cell of the base layer that only repeats the key's own name. Screw holes and areas of the plate have
no order.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from matrixgen.model.design import Design
from matrixgen.model.geometry import centre_of
from matrixgen.model.keyboard import Keyboard
from matrixgen.model.layers import Layer
from matrixgen.model.plate import Key, PlateLine
from matrixgen.model.text import Number, Word
from matrixgen.model.wiring import Line, Wiring

Meaning = dict[str, Any]
"""Plain values by name: texts, numbers, tuples, sets and further meanings."""

DIGITS = 6
"""Digits of a key unit that count: 0.00002 mm. What lies below is rounding."""


def meaning_of(design: Design) -> Meaning:
    """Return what a file says: the keyboard, its mountings, and what it does not want to hear."""
    return {
        **mounted_meaning(design),
        "allowed": {(one.slug.text, frozenset(_texts(one.places))) for one in design.allowances},
    }


def mounted_meaning(design: Design) -> Meaning:
    """Return what would be built: a file's meaning but for its allowances."""
    return {
        "keyboard": keyboard_meaning(design.keyboard),
        "controllers": _texts(design.controllers),
        "pins": {line: _texts(pins) for line, pins in design.pins.items()},
    }


def keyboard_meaning(keyboard: Keyboard) -> Meaning:
    """Return what is said of the keyboard itself."""
    identity, loader = keyboard.identity, keyboard.boot_loader
    return {
        "name": _text(identity.name),
        "maker": _text(identity.maker),
        "usb": (identity.vendor_id, identity.product_id),
        "debounce ms": keyboard.debounce_ms.value,
        "press ms": _number(keyboard.press_ms),
        "once ms": _number(keyboard.once_ms),
        "remember base": keyboard.remember_base is not None,
        "plate": tuple(map(_plate_line, keyboard.plate.lines)),
        "clusters": tuple(cluster.name.text for cluster in keyboard.plate.clusters),
        "holes": frozenset(_rounded(hole.x, hole.y) for hole in keyboard.plate.holes),
        "kept clear": frozenset(
            _rounded(area.x, area.y, area.width, area.height) for area in keyboard.plate.keep_clear
        ),
        "wiring": _wiring(keyboard.wiring),
        "actions": {named.name.text: named.action for named in keyboard.actions},
        "layers": tuple(map(_layer, keyboard.layers)),
        "boot loader": (frozenset(_texts(loader.hold)), loader.double_reset is not None),
    }


def _plate_line(line: PlateLine) -> Meaning:
    return {"cluster": line.cluster, "keys": tuple(map(_key, line.keys))}


def _key(key: Key) -> Meaning:
    return {
        "name": key.name.text,
        "centre": _rounded(*centre_of(key)),
        "size": (key.width, key.height),
        "turned": round(key.turned % 360, DIGITS),
    }


def _rounded(*lengths: float) -> tuple[float, ...]:
    return tuple(round(length, DIGITS) + 0.0 for length in lengths)  # there is no -0.0


def _wiring(wiring: Wiring) -> Meaning:
    diodes = wiring.diodes
    return {
        "drive": wiring.drive,
        "diodes": (diodes.part.text, diodes.band_toward) if diodes else None,
        "without diode": frozenset(_texts(wiring.without_diode)),
        "reversed": frozenset(_texts(wiring.reversed)),
        "settle us": _number(wiring.settle_us),
        "lines": tuple(map(_line, wiring.lines)),
    }


def _line(line: Line) -> Meaning:
    return {
        "axis": line.axis,
        "name": line.name.text,
        "colour": _text(line.colour),
        "visits": _texts(line.visits),
    }


def _layer(layer: Layer) -> Meaning:
    return {
        "name": layer.name.text,
        "needs": frozenset(_texts(layer.needs)),
        "cells": {cell.key.text: cell.action for cell in layer.cells},
    }


def _text(word: Word | None) -> str | None:
    return word.text if word else None


def _number(number: Number | None) -> float | None:
    return number.value if number else None


def _texts(words: Iterable[Word]) -> tuple[str, ...]:
    return tuple(word.text for word in words)
