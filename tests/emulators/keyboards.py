"""Keyboards for the emulator tests, made as records: a square of keys on the pins asked for."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from matrixgen.boards import Mounted, Profile, builtin_profile
from matrixgen.model import (
    AXES,
    Action,
    Axis,
    DiodeRule,
    HoldLayer,
    Keyboard,
    Mounting,
    Press,
    Span,
    Word,
)
from matrixgen.record import changed
from matrixgen.source import read_design
from tests.firmware.build_model import keyboard
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
    keyboard = _keyboard(
        name or f"Square {size}",
        names,
        layers,
        drive=drive,
        without_diode=tuple(map(word, without_diode)),
        reversed=tuple(map(word, reversed_keys)),
        diodes=DiodeRule(word("1N4148"), band or drive, SPAN),
    )
    return Mounted(keyboard, _mounting(controller, rows, columns), profile(controller))


def rectangle(
    controller: str, rows: Sequence[str], columns: Sequence[str], drive: Axis
) -> tuple[Mounted, list[list[str]]]:
    """Return a keyboard of a row for each of some pins by a column for each of others.

    With it come its keys' names, row by row. Key n presses usage 4 + n, up to the last plain one.
    """
    names = [[f"R{row}C{column}" for column in range(len(columns))] for row in range(len(rows))]
    diodes = DiodeRule(word("1N4148"), drive, SPAN)
    keyboard = _keyboard("Rectangle", names, 1, drive=drive, diodes=diodes)
    return Mounted(keyboard, _mounting(controller, rows, columns), profile(controller)), names


def _keyboard(title: str, names: list[list[str]], layers: int, **wiring: object) -> Keyboard:
    flat = [name for row in names for name in row]
    cells = {_layer_name(number): _cells(flat, number, layers) for number in range(layers)}
    made = keyboard(names, cells, settle_us=4, name=title, maker="A test")
    return changed(made, wiring=changed(made.wiring, **wiring))


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


def _mounting(controller: str, rows: Sequence[str], columns: Sequence[str]) -> Mounting:
    pins = {
        f"{axis[0]}{number}": word(pin)
        for axis, of_axis in zip(AXES, (rows, columns), strict=True)
        for number, pin in enumerate(of_axis)
    }
    return Mounting(word(controller), pins)


def pins_of(controller: str) -> tuple[Sequence[str], Sequence[str]]:
    """Return the pins of the rows and of the columns."""
    return RP2040_PINS if controller.startswith("rp2040") else AVR_PINS


def _layer_name(number: int) -> str:
    return "base" if number == 0 else f"l{number}"


def _cells(names: list[str], number: int, layers: int) -> dict[str, Action]:
    """Return what keys do on a layer; the last ones do only on the base layer, and hold others."""
    cells: dict[str, Action] = {
        name: Press(FIRST_USAGE + (place + number) % PLAIN_USAGES)
        for place, name in enumerate(names)
    }
    for layer in range(1, layers):
        if number == 0:
            cells[names[-layer]] = HoldLayer(_layer_name(layer))
        else:
            del cells[names[-layer]]
    return cells


def profile(name: str) -> Profile:
    found = builtin_profile(name)
    assert found is not None
    return found
