"""Keyboards put together by hand, so that the firmware is tested without the parser."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from matrixgen.boards import Datasheet, Mounted, Pin, Profile
from matrixgen.model import (
    Action,
    Axis,
    BootLoader,
    Cell,
    DiodeRule,
    Identity,
    Key,
    Keyboard,
    Knob,
    Layer,
    Line,
    Mounting,
    Number,
    Plate,
    PlateLine,
    Press,
    Span,
    Together,
    Wiring,
    Word,
)
from matrixgen.record import changed

SOURCE = "somewhere/test.keys"
NOWHERE = Span.start_of("test.keys")

AVR_PINS = tuple(f"P{port}{bit}" for port in "BDFCE" for bit in range(8))


def word(text: str) -> Word:
    return Word(text, NOWHERE)


def profile(**changes: object) -> Profile:
    """A chip with 5 V levels as in the ATmega32U4's datasheet (Atmel 7766, table 29-1)."""
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
        "output_low_ohm": 70.0,
        "sink_ampere": 0.04,
        "total_sink_ampere": 0.2,
        "edges": (),
        "sources": (),
        "pins": tuple(map(_pin, AVR_PINS)),
    }
    return Profile(**{**fields, **changes})  # type: ignore[arg-type]


def _pin(name: str) -> Pin:
    return Pin(
        name=name,
        label=None,
        use="free",
        duty=None,
        advice=None,
        output=True,
        pull_up=True,
        levels=None,
    )


def mounted(keyboard: Keyboard, profile: Profile) -> Mounted:
    """A keyboard on a controller, its lines on `AVR_PINS` in their order."""
    names = (line.name.text for line in keyboard.wiring.lines)
    pins = dict(zip(names, map(word, AVR_PINS), strict=False))
    return Mounted(keyboard, Mounting(word(profile.name), pins), profile)


def key(name: str, plate_line: int, x: float, own: Press | None) -> Key:
    return Key(
        name=word(name),
        x=x,
        y=float(plate_line),
        width=1.0,
        height=1.0,
        turned=0.0,
        pivot_x=0.0,
        pivot_y=0.0,
        plate_line=plate_line,
        own_action=own,
    )


def keyboard(
    rows: Sequence[Sequence[str | None]],
    layers: Mapping[str, Mapping[str, Action]],
    *,
    debounce_ms: float = 5,
    settle_us: float | None = None,
    name: str = "Test pad",
    maker: str | None = None,
    hold: Sequence[str] = (),
    press_ms: float | None = None,
    once_ms: float | None = None,
    pace_ms: float | None = None,
    needs: Mapping[str, Sequence[str]] | None = None,
    remember_base: bool = False,
    together: Mapping[str, Sequence[tuple[str, Action, int]]] | None = None,
    knobs: Mapping[str, int] | None = None,
    pointer: Sequence[float] = (),
    wheel: Sequence[float] = (),
) -> Keyboard:
    """A keyboard whose rows sense and whose columns are driven; None is an empty crossing.

    `layers` has the base layer first; a key that it leaves out does not work. `together` has, by
    layer, the keys of each set with spaces between them, its action, and its time. `knobs` has the
    states of each knob.
    """
    return Keyboard(
        identity=Identity(word(name), word(maker) if maker else None, None, None),
        debounce_ms=Number(debounce_ms, NOWHERE),
        plate=_plate(rows, layers),
        wiring=_wiring(rows, settle_us, knobs or {}),
        actions=(),
        layers=tuple(
            changed(
                _layer(layer, cells, (needs or {}).get(layer, ())),
                together=tuple(_together(*one) for one in (together or {}).get(layer, ())),
            )
            for layer, cells in layers.items()
        ),
        boot_loader=BootLoader(tuple(map(word, hold))),
        remember_base=NOWHERE if remember_base else None,
        press_ms=Number(press_ms, NOWHERE) if press_ms is not None else None,
        once_ms=Number(once_ms, NOWHERE) if once_ms is not None else None,
        pace_ms=Number(pace_ms, NOWHERE) if pace_ms is not None else None,
        pointer=tuple(Number(value, NOWHERE) for value in pointer),
        wheel=tuple(Number(value, NOWHERE) for value in wheel),
    )


def _plate(
    rows: Sequence[Sequence[str | None]], layers: Mapping[str, Mapping[str, Action]]
) -> Plate:
    lines = tuple(
        PlateLine(
            tuple(
                key(text, number, float(place), _own(layers, text))
                for place, text in enumerate(row)
                if text is not None
            ),
            None,
            NOWHERE,
        )
        for number, row in enumerate(rows)
    )
    return Plate(lines, (), NOWHERE)


def _own(layers: Mapping[str, Mapping[str, Action]], name: str) -> Press | None:
    action = next(iter(layers.values())).get(name)
    return action if isinstance(action, Press) else None


def _layer(name: str, cells: Mapping[str, Action], needs: Sequence[str]) -> Layer:
    made = tuple(Cell(word(text), word(f"do-{text}"), action) for text, action in cells.items())
    return Layer(
        name=word(name),
        cells=made,
        is_picture=False,
        span=NOWHERE,
        needs=tuple(map(word, needs)),
    )


def _together(keys: str, action: Action, within_ms: int) -> Together:
    return Together(
        keys=tuple(map(word, keys.split())),
        written=word(f"do-{keys}"),
        action=action,
        within_ms=within_ms,
        span=NOWHERE,
    )


def _wiring(
    rows: Sequence[Sequence[str | None]], settle_us: float | None, knobs: Mapping[str, int]
) -> Wiring:
    columns = zip(*rows, strict=True)
    return Wiring(
        drive="column",
        drive_span=NOWHERE,
        diodes=DiodeRule(word("1N4148"), "column", NOWHERE),
        without_diode=(),
        reversed=(),
        settle_us=Number(settle_us, NOWHERE) if settle_us is not None else None,
        lines=(*_lines("row", rows), *_lines("column", columns)),
        keyword=NOWHERE,
        span=NOWHERE,
        knobs=tuple(
            Knob(name=word(name), span=NOWHERE, states=states) for name, states in knobs.items()
        ),
    )


def _lines(axis: Axis, keys: Iterable[Sequence[str | None]]) -> tuple[Line, ...]:
    return tuple(
        Line(
            axis=axis,
            name=word(f"{axis[0]}{number}"),
            colour=None,
            visits=_words(names),
            span=NOWHERE,
        )
        for number, names in enumerate(keys)
    )


def _words(names: Sequence[str | None]) -> tuple[Word, ...]:
    return tuple(word(name) for name in names if name is not None)
