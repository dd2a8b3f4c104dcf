"""A fact in words: what it is of, and what it says."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any
from zlib import crc32

from matrixgen.compare.facts import FactPath
from matrixgen.model import InTurn, with_parts
from matrixgen.model.actions import Struck
from matrixgen.model.plate import USUAL_SCREW

UNITS = ("ms", "us")
"""What a field whose name ends so is measured in."""

NOT_GIVEN: tuple[object, ...] = (None, False, 0, (), frozenset())

SPEEDS = ("pointer", "wheel")
"""Settings that are speeds."""

CALLED = {
    "product_id": "USB ids",
    "debounce_ms": "debounce",
    "press_ms": "press",
    "once_ms": "once lasts",
    "pace_ms": "pace",
    "hold_after_ms": "hold after",
    "roll_ms": "roll",
    "together_ms": "together within",
    "hold": "boot loader, keys held",
    "double_reset": "boot loader, double reset",
    "settle_us": "settle",
    "drive": "driven",
    "holes": "hole",
    "cut_out": "cut-out",
    "controller": "controller's place",
    "forward": "forward voltage",
    "milliamperes": "most current",
    "side": "other leg",
}
"""What a field is called, where that is not its name."""


def what_of(path: FactPath) -> str:
    """Return what a fact is of."""
    match path:
        case ("action", name):
            return f"action {name}"
        case ("cell", layer, key):
            return f"layer {layer}, key {key}"
        case ("together", layer, *keys):
            return f"layer {layer}, keys {' '.join(keys)} together"
        case ("key" | "hand" | "without_diode" | "reversed" | "without_stabiliser" as kind, key):
            return f"key {key}{'' if kind == 'key' else f', {_name(kind)}'}"
        case ("idle", field):
            return f"no key asks for {_name(field)}"
        case ("layer", layer, "needs"):
            return f"layer {layer}"
        case ("component" | "component pin" | "component place", called, *_):
            return called
        case ("first pin", called, *_):
            return f"{called}, contact A"
        case ("light" | "knob" as kind, name, field):
            return f"{kind} {name}, {_name(field)}"
        case ("line" | "pin", wire, *_) | ("wire", wire, "colour"):
            return f"wire {wire}"
        case ("wire" | "layer" as kind, name, field):
            return f"{kind} {name}, {_name(field)}"
        case _:
            return _name(path[-1])


def _name(field: str) -> str:
    return CALLED.get(field, field.replace("_", " "))


def says(path: FactPath, value: Any) -> str:
    """Return what a fact says, with its unit."""
    kind, field = path[0], path[-1]
    said = SAID.get((kind, field)) or SAID.get((kind,)) or plain
    unit = next((unit for unit in UNITS if field.endswith(f"_{unit}")), "")
    words = f"{said(value)} {unit}".rstrip()
    return f"pin {words} of {field}" if kind in ("pin", "component pin", "first pin") else words


def plain(value: Any) -> str:
    """Return a value as it is."""
    match value:
        case True:
            return "yes"
        case frozenset():
            return " ".join(sorted(value))
        case tuple():
            return ", ".join(map(plain, value))
        case float():
            return f"{value:g}"
        case _:
            return str(value)


def _key(value: tuple[Any, ...]) -> str:
    (x, y), (width, height), turned, *more = value
    turn = [f"turned {turned:g}"] if turned else []
    return ", ".join(
        [f"{width:g} x {height:g}, its middle at {x:g}, {y:g}", *turn, *map(plain, more)]
    )


MOST_STROKES = 12
"""Strokes of a text that are listed; of more there is their number and a checksum."""


def sent_words(action: Any) -> str:
    """Return what an action does, and by which keys where a text depends on the computer."""
    texts = (one for one in with_parts(action) if isinstance(one, InTurn) and one.types_text)
    sent = "; ".join(_strokes_of(one) for one in texts)
    return f"{action.phrase} ({sent})" if sent else str(action.phrase)


def _strokes_of(turn: InTurn) -> str:
    words = [Struck(stroke).phrase for stroke in turn.strokes]
    if len(words) <= MOST_STROKES:
        return f"by {' '.join(words)}"
    return f"by {len(words)} keys, checksum {crc32(' '.join(words).encode()):08x}"


def together_words(action: Any, within_ms: int) -> str:
    """Return what keys do together, and within what time."""
    return f"{sent_words(action)}, within {within_ms} ms"


def _diodes(value: tuple[str, ...]) -> str:
    part, toward, *more = value
    return ", ".join((part, f"band toward {toward}s", *more))


def area_words(value: tuple[float, ...]) -> str:
    """Return the size of a keep-clear area, and where its upper left corner is."""
    x, y, width, height, *more = value
    return ", ".join((f"{width:g} x {height:g} at {x:g}, {y:g}", *map(plain, more)))


def hole_words(value: tuple[float, ...]) -> str:
    """Return where a screw hole is, and for which screw if it is not the usual one."""
    x, y, nominal = value
    return f"at {x:g}, {y:g}" + (f" for M{nominal:g}" if nominal != USUAL_SCREW.nominal else "")


def outline_words(value: tuple[Any, float] | None) -> str:
    """Return what the plate's outline is, in words, of its margin or its corners and its radius."""
    if value is None:
        return "not given"
    ends, radius = value
    if isinstance(ends, float):
        return f"margin {ends:g} mm, radius {radius:g} mm"
    return f"from {' to '.join(f'{x:g}, {y:g}' for x, y in ends)}, radius {radius:g} mm"


def speed_words(value: tuple[float, ...] | Mapping[str, float]) -> str:
    """Return a speed of the pointer or the wheels: steady, or from one to another within a time."""
    start, *more = value.values() if isinstance(value, Mapping) else value
    if not more or start == more[0]:
        return f"{start:g} steps a second"
    most, within_ms = more
    return f"{start:g} to {most:g} steps a second within {within_ms:g} ms"


def cut_out_words(value: tuple[float, float]) -> str:
    """Return the size of a switch's cut-out."""
    return f"{value[0]:g} x {value[1]:g} mm"


def controller_words(value: tuple[float, ...] | None) -> str:
    """Return where the controller is, and how it is turned."""
    if value is None:
        return "not given"
    x, y, turned, *more = value
    turn = [f"turned {turned:g}"] if turned else []
    return ", ".join([f"at {x:g}, {y:g}", *turn, *map(plain, more)])


def place_words(value: tuple[float, float]) -> str:
    """Return where the middle of something is, in key units."""
    return f"at {value[0]:g}, {value[1]:g}"


SAID: dict[FactPath, Callable[[Any], str]] = {
    ("key",): _key,
    ("cell",): sent_words,
    ("together",): lambda value: together_words(*value),
    ("action",): sent_words,
    ("wiring", "diodes"): _diodes,
    ("wiring", "drive"): "{}s".format,
    ("component",): lambda _: "wired",
    ("component pin",): " ".join,
    ("component place",): place_words,
    ("light", "layers"): lambda layers: " ".join(sorted(layers)),
    ("light", "side"): "to {}".format,
    ("light", "forward"): lambda volts: f"{volts[0]:g} to {volts[1]:g} V",
    ("light", "milliamperes"): "{:g} mA".format,
    ("layer", "needs"): lambda needs: f"while {' and '.join(sorted(needs))} are on",
    ("on plate", "holes"): hole_words,
    ("on plate", "keep_clear"): area_words,
    ("on plate", "controller"): controller_words,
    ("on plate", "outline"): outline_words,
    ("on plate", "cut_out"): cut_out_words,
    ("on plate", "thickness"): "{:g} mm".format,
    **{("keyboard", name): speed_words for name in SPEEDS},
}
"""How a kind of fact, or one field of it, is said, where its value does not say it."""
