"""The keyboards that the tests of this folder type on."""

from __future__ import annotations

from matrixgen.model import (
    Action,
    HoldLayer,
    Keyboard,
    LatchLayer,
    Nothing,
    Press,
    StartBootLoader,
)
from tests.firmware.build_model import keyboard

LEFT_CTRL, LEFT_SHIFT = 0x01, 0x02


def small_pad() -> Keyboard:
    """Eleven keys and an empty crossing; layers that are held and latched across each other."""
    rows: list[list[str | None]] = [
        ["A", "B", "C", None],
        ["D", "E", "F", "G"],
        ["Sym", "Num", "Shift", "Both"],
    ]
    base: dict[str, Action] = {
        "A": Press(0x04),
        "B": Press(0x05),
        "C": Press(0x06, LEFT_CTRL),
        "D": Press(0x04),  # the same usage twice
        "E": Press(0x06),
        "F": Press(0xDF),  # the last bit of the report
        "G": Nothing(),
        "Sym": HoldLayer("symbols"),
        "Num": LatchLayer("numbers"),
        "Shift": Press(0, LEFT_SHIFT),
        "Both": HoldLayer("symbols"),
    }
    symbols: dict[str, Action] = {
        "A": Press(0x1E, LEFT_SHIFT),
        "B": HoldLayer("numbers"),
        "Num": LatchLayer("symbols"),
        "Both": Press(0x04),
    }
    numbers: dict[str, Action] = {
        "A": Press(0x59),
        "D": Nothing(),
        "F": LatchLayer("symbols"),
        "Num": LatchLayer("numbers"),
        "Sym": HoldLayer("symbols"),
    }
    return keyboard(rows, {"base": base, "symbols": symbols, "numbers": numbers})


def loader_pad() -> Keyboard:
    """Twelve sensed rows; A, B and Z start the boot loader together, and B on a layer alone."""
    rows: list[list[str | None]] = [["A", "B"], *([f"F{row}", None] for row in range(10))]
    rows.append(["More", "Z"])
    names = [name for row in rows for name in row if name]
    base: dict[str, Action] = {name: Press(0x04 + place) for place, name in enumerate(names)}
    base["More"] = HoldLayer("more")
    upper: dict[str, Action] = {"B": StartBootLoader(), "F3": StartBootLoader()}
    return keyboard(rows, {"base": base, "more": upper}, hold=("A", "B", "Z"))


def square_board(layers: int = 4) -> Keyboard:
    """Sixty-four keys, eight by eight, four layers: the size that the figures are promised for."""
    rows: list[list[str]] = [[f"K{row}{column}" for column in range(8)] for row in range(8)]
    names = [name for row in rows for name in row]
    base: dict[str, Action] = {name: Press(0x04 + place) for place, name in enumerate(names)}
    for place in range(1, layers):
        base[names[place]] = HoldLayer(f"layer{place}")
    base[names[layers]] = LatchLayer("layer1")
    base[names[layers + 1]] = Press(0, LEFT_SHIFT)
    stack: dict[str, dict[str, Action]] = {"base": base}
    for place in range(1, layers):
        stack[f"layer{place}"] = {
            name: Press(0x04 + (number + place) % 0x60, place)
            for number, name in enumerate(names[8:])
        }
    return keyboard(rows, stack)


def huge_board() -> Keyboard:
    """More of everything than fits a byte: 18 sensed lines, 306 keys, 10 layers, 400 actions."""
    rows: list[list[str]] = [[f"R{row}C{column}" for column in range(17)] for row in range(18)]
    names = [name for row in rows for name in row]
    stack: dict[str, dict[str, Action]] = {"base": {}}
    for number, name in enumerate(names):
        stack["base"][name] = Press(0x04 + number % 0xA0, number // 0xA0)
    for place in range(1, 10):
        stack["base"][names[-place]] = HoldLayer(f"layer{place}")
        stack[f"layer{place}"] = {
            name: Press(0x04 + number % 0x60, 0x10 + place)
            for number, name in enumerate(names[: 20 * place])
        }
    return keyboard(rows, stack, debounce_ms=200)
