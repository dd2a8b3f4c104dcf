"""Keyboards put together by hand, so that the firmware is tested without the parser."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from matrixgen.boards.profile import Datasheet, Pin, Profile
from matrixgen.model import (
    Action,
    Assignment,
    BootLoader,
    DiodeRule,
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

NOWHERE = Span("test.keys", 1, 1, 1, 1)

AVR_PINS = tuple(f"P{port}{bit}" for port in "BDFCE" for bit in range(8))


def word(text: str) -> Word:
    return Word(text, NOWHERE)


def profile(**changes: object) -> Profile:
    """A chip with 5 V levels as in the ATmega32U4's datasheet (Atmel 7766, table 29-1)."""
    pins = tuple(Pin(name, None, "free", None, None, True, True, None) for name in AVR_PINS)
    fields: dict[str, object] = {
        "name": "test-chip",
        "title": "a chip for tests",
        "chip": "ATmega32U4",
        "family": "avr",
        "port": "avr",
        "proof": "builds",
        "datasheet": Datasheet("ATmega16U4/32U4", "Atmel 7766", "29.2"),
        "clock_hz": 16_000_000,
        "supply_volts": 5.0,
        "flash_bytes": 32768,
        "ram_bytes": 2560,
        "boot_loader_bytes": 4096,
        "pull_up_ohm_min": 20_000.0,
        "pull_up_ohm_max": 50_000.0,
        "input_low_volts": 0.9,
        "input_high_volts": 1.9,
        "pin_farad": 10e-12,
        "sources": (),
        "pins": pins,
    }
    return Profile(**{**fields, **changes})  # type: ignore[arg-type]


def key(name: str, plate_line: int, x: float, own: Press | None) -> Key:
    return Key(word(name), x, float(plate_line), 1.0, 1.0, 0.0, 0.0, 0.0, plate_line, own)


def keyboard(
    rows: Sequence[Sequence[str | None]],
    layers: Mapping[str, Mapping[str, Action]],
    *,
    debounce_ms: float = 5,
    settle_us: float | None = None,
    name: str = "Test pad",
    maker: str | None = None,
    hold: Sequence[str] = (),
) -> Keyboard:
    """A keyboard whose rows sense and whose columns are driven; None is an empty crossing.

    `layers` has the base layer first; a key that it leaves out does not work.
    """
    plate = tuple(
        PlateLine(
            tuple(
                key(text, number, float(place), _own(layers, text))
                for place, text in enumerate(row)
                if text is not None
            ),
            NOWHERE,
        )
        for number, row in enumerate(rows)
    )
    return Keyboard(
        Identity(word(name), word(maker) if maker else None, None, None),
        word("test-chip"),
        Number(debounce_ms, NOWHERE),
        (),
        plate,
        _wiring(rows, settle_us),
        (),
        tuple(_layer(layer, cells) for layer, cells in layers.items()),
        SourceText("somewhere/test.keys", "", "0" * 64),
        NOWHERE,
        BootLoader(tuple(map(word, hold))),
    )


def _own(layers: Mapping[str, Mapping[str, Action]], name: str) -> Press | None:
    action = next(iter(layers.values())).get(name)
    return action if isinstance(action, Press) else None


def _layer(name: str, cells: Mapping[str, Action]) -> Layer:
    made = tuple(
        Assignment(word(text), word(f"do-{text}"), action) for text, action in cells.items()
    )
    return Layer(word(name), made, False, NOWHERE)


def _wiring(rows: Sequence[Sequence[str | None]], settle_us: float | None) -> Wiring:
    pins = iter(AVR_PINS)
    lines = [
        Line("row", word(f"r{number}"), word(next(pins)), None, _words(row), NOWHERE)
        for number, row in enumerate(rows)
    ]
    for number in range(len(rows[0])):
        column = [row[number] for row in rows]
        lines.append(
            Line("column", word(f"c{number}"), word(next(pins)), None, _words(column), NOWHERE)
        )
    return Wiring(
        "column",
        NOWHERE,
        DiodeRule(word("1N4148"), "column", NOWHERE),
        (),
        (),
        Number(settle_us, NOWHERE) if settle_us is not None else None,
        tuple(lines),
        NOWHERE,
    )


def _words(names: Sequence[str | None]) -> tuple[Word, ...]:
    return tuple(word(name) for name in names if name is not None)
