"""Keyboards for the emulator tests, made as records: a square of keys on the pins asked for."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from matrixgen.boards import Mounted, Profile, builtin_profile
from matrixgen.model import (
    AXES,
    Action,
    Axis,
    Cell,
    DiodeRule,
    HoldLayer,
    Identity,
    Key,
    Keyboard,
    Layer,
    Line,
    Mounting,
    Number,
    Plate,
    PlateLine,
    Press,
    Span,
    Wiring,
    Word,
)
from matrixgen.record import changed
from matrixgen.source import read_design
from tests.reports import FIRST_USAGE, PLAIN_USAGES

SOURCE = "square.keys"
SPAN = Span.start_of(SOURCE)

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
    band: Axis | None = None,
) -> Mounted:
    """Return `size` rows by `size` columns; key n presses usage 4 + n, one more on each layer.

    On more than one layer the last keys hold the layers 1, 2, ... . `band` is where `diodes` says
    that the bands point, the driven lines without it.
    """
    rows, columns = (pins[:size] for pins in pins_of(controller))
    names = [[key_name(row, column) for column in range(size)] for row in range(size)]
    wiring = changed(
        _wiring(names, drive, without_diode, reversed_keys),
        diodes=DiodeRule(word("1N4148"), band or drive, SPAN),
    )
    keyboard = _keyboard(name or f"Square {size}", names, wiring, layers)
    return Mounted(keyboard, _mounting(controller, rows, columns), profile(controller))


def rectangle(
    controller: str, rows: Sequence[str], columns: Sequence[str], drive: Axis
) -> tuple[Mounted, list[list[str]]]:
    """Return a keyboard of a row for each of some pins by a column for each of others.

    With it come its keys' names, row by row. Key n presses usage 4 + n, up to the last plain one.
    """
    names = [[f"R{row}C{column}" for column in range(len(columns))] for row in range(len(rows))]
    keyboard = _keyboard("Rectangle", names, _wiring(names, drive, (), ()), 1)
    return Mounted(keyboard, _mounting(controller, rows, columns), profile(controller)), names


def _keyboard(title: str, names: list[list[str]], wiring: Wiring, layers: int) -> Keyboard:
    flat = [name for row in names for name in row]
    lines = tuple(_plate_line(row, number) for number, row in enumerate(names))
    return Keyboard(
        identity=Identity(word(title), word("A test"), 0x1209, 0x0001),
        debounce_ms=Number(5, SPAN),
        plate=Plate(lines, (), SPAN),
        wiring=wiring,
        actions=(),
        layers=tuple(_layer(flat, number, layers) for number in range(layers)),
    )


def pad_on(chip: str, text: str) -> Mounted:
    """Read a file for the controller `CHIP`, whose free pins are `P0`, `P1` and so on there."""
    profile = builtin_profile(chip)
    assert profile is not None
    free = [pin.name for pin in profile.free_pins]
    text = re.sub(r"\bP(\d+)\b", lambda found: free[int(found[1])], text.replace("CHIP", chip))
    design, findings = read_design("pad.keys", text)
    assert design is not None, findings
    return Mounted(design.keyboard, design.mountings[0], profile)


def with_media_keys(mounted: Mounted, keys: Mapping[str, Action]) -> Mounted:
    """Return the same with media keys in place of some keys of the base layer."""
    base, *others = mounted.keyboard.layers
    cells = tuple(changed(cell, action=keys.get(cell.key.text, cell.action)) for cell in base.cells)
    layers = (changed(base, cells=cells), *others)
    return Mounted(changed(mounted.keyboard, layers=layers), mounted.mounting, mounted.profile)


def _plate_line(names: Sequence[str], number: int) -> PlateLine:
    keys = tuple(_key(name, float(place), number) for place, name in enumerate(names))
    return PlateLine(keys, None, SPAN)


def _key(name: str, x: float, number: int) -> Key:
    return Key(
        name=word(name),
        x=x,
        y=float(number),
        width=1,
        height=1,
        turned=0,
        pivot_x=0,
        pivot_y=0,
        plate_line=number,
        own_action=None,
    )


def _wiring(
    names: list[list[str]], drive: Axis, bare: Sequence[str], turned: Sequence[str]
) -> Wiring:
    rows = [_line("row", n, keys) for n, keys in enumerate(names)]
    columns = [_line("column", n, keys) for n, keys in enumerate(zip(*names, strict=True))]
    return Wiring(
        drive=drive,
        drive_span=SPAN,
        diodes=DiodeRule(word("1N4148"), drive, SPAN),
        without_diode=tuple(map(word, bare)),
        reversed=tuple(map(word, turned)),
        settle_us=Number(4, SPAN),
        lines=(*rows, *columns),
        keyword=SPAN,
        span=SPAN,
    )


def _line(axis: Axis, number: int, keys: Sequence[str]) -> Line:
    visits = tuple(map(word, keys))
    return Line(axis=axis, name=_line_name(axis, number), colour=None, visits=visits, span=SPAN)


def _line_name(axis: Axis, number: int) -> Word:
    return word(f"{axis[0]}{number}")


def _mounting(controller: str, rows: Sequence[str], columns: Sequence[str]) -> Mounting:
    pins = {
        _line_name(axis, number).text: word(pin)
        for axis, of_axis in zip(AXES, (rows, columns), strict=True)
        for number, pin in enumerate(of_axis)
    }
    return Mounting(word(controller), pins)


def pins_of(controller: str) -> tuple[Sequence[str], Sequence[str]]:
    """Return the pins of the rows and of the columns."""
    return RP2040_PINS if controller.startswith("rp2040") else AVR_PINS


def _layer(names: list[str], number: int, layers: int) -> Layer:
    cells = [
        Cell(word(name), word(name), Press(FIRST_USAGE + (place + number) % PLAIN_USAGES))
        for place, name in enumerate(names)
    ]
    if number == 0:
        for layer in range(1, layers):
            written = word(f"layer-{layer}")
            cells[-layer] = Cell(word(names[-layer]), written, HoldLayer(f"l{layer}"))
    else:
        cells = cells[: len(cells) - layers + 1]
    name = word("base" if number == 0 else f"l{number}")
    return Layer(name=name, cells=tuple(cells), is_picture=False, span=SPAN)


def profile(name: str) -> Profile:
    found = builtin_profile(name)
    assert found is not None
    return found
