"""Keyboards for the emulator tests, made as records: a square of keys on the pins asked for."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.boards import Profile
from matrixgen.boards.load import builtin_profile
from matrixgen.model import (
    Assignment,
    Axis,
    DiodeRule,
    HoldLayer,
    Identity,
    Key,
    Keyboard,
    Layer,
    Line,
    Number,
    PlateLine,
    Press,
    SourceText,
    Span,
    Wiring,
    Word,
)

SPAN = Span("square.keys", 1, 1, 1, 1)

ROW_PINS = ("PB0", "PB1", "PB2", "PB3", "PB4", "PB5", "PB6", "PB7")
COLUMN_PINS = ("PD0", "PD1", "PD2", "PD3", "PD4", "PD5", "PD6", "PC7")
"""Pins that the ATmega32U4 and the AT90USB162 both have."""

AVR_PINS = (ROW_PINS, COLUMN_PINS)
RP2040_PINS = (
    ("GPIO0", "GPIO1", "GPIO2", "GPIO3", "GPIO4", "GPIO5", "GPIO6", "GPIO7"),
    ("GPIO15", "GPIO9", "GPIO10", "GPIO11", "GPIO20", "GPIO28", "GPIO14", "GPIO8"),
)
"""Some in order and some not, so that the firmware has to gather bits from here and there."""


def word(text: str) -> Word:
    return Word(text, SPAN)


def key_name(row: int, column: int) -> str:
    return f"K{row}{column}"


def square(
    size: int,
    layers: int = 1,
    *,
    controller: str = "atmega32u4",
    drive: Axis = "column",
    name: str | None = None,
    without_diode: Sequence[str] = (),
    reversed_keys: Sequence[str] = (),
) -> Keyboard:
    """Return `size` rows by `size` columns; key n presses usage 4 + n, one more on each layer.

    On more than one layer the last keys hold the layers 1, 2, ... .
    """
    names = [[key_name(row, column) for column in range(size)] for row in range(size)]
    flat = [name for row in names for name in row]
    return Keyboard(
        identity=Identity(word(name or f"Square {size}"), word("A test"), 0x1209, 0x0001),
        controller=word(controller),
        debounce_ms=Number(5, SPAN),
        allowed=(),
        plate_lines=tuple(_plate_line(row, number) for number, row in enumerate(names)),
        wiring=_wiring(names, pins_of(controller), drive, without_diode, reversed_keys),
        actions=(),
        layers=tuple(_layer(flat, number, layers) for number in range(layers)),
        source=SourceText("square.keys", "", ""),
        span=SPAN,
    )


def _plate_line(names: Sequence[str], number: int) -> PlateLine:
    keys = tuple(
        Key(word(name), x, number, 1, 1, 0, 0, 0, number, None) for x, name in enumerate(names)
    )
    return PlateLine(keys, SPAN)


def pins_of(controller: str) -> tuple[Sequence[str], Sequence[str]]:
    """Return the pins of the rows and of the columns."""
    return RP2040_PINS if controller.startswith("rp2040") else AVR_PINS


def _wiring(
    names: list[list[str]],
    pins: tuple[Sequence[str], Sequence[str]],
    drive: Axis,
    bare: Sequence[str],
    turned: Sequence[str],
) -> Wiring:
    rows = [_line("row", n, pins[0][n], keys) for n, keys in enumerate(names)]
    columns = [
        _line("column", n, pins[1][n], keys) for n, keys in enumerate(zip(*names, strict=True))
    ]
    diodes = DiodeRule(word("1N4148"), drive, SPAN)
    bare_words, turned_words = (tuple(word(key) for key in keys) for keys in (bare, turned))
    settle = Number(4, SPAN)
    return Wiring(drive, SPAN, diodes, bare_words, turned_words, settle, (*rows, *columns), SPAN)


def _line(axis: Axis, number: int, pin: str, keys: Sequence[str]) -> Line:
    visits = tuple(word(key) for key in keys)
    return Line(axis, word(f"{axis[0]}{number}"), word(pin), None, visits, SPAN)


def _layer(names: list[str], number: int, layers: int) -> Layer:
    cells = [
        Assignment(word(name), word(name), Press(4 + (place + number) % 100))
        for place, name in enumerate(names)
    ]
    if number == 0:
        for layer in range(1, layers):
            cell = word(f"layer-{layer}")
            cells[-layer] = Assignment(word(names[-layer]), cell, HoldLayer(f"l{layer}"))
    else:
        cells = cells[: len(cells) - layers + 1]
    return Layer(word("base" if number == 0 else f"l{number}"), tuple(cells), False, SPAN)


def profile(name: str) -> Profile:
    found = builtin_profile(name)
    assert found is not None
    return found
