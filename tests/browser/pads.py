"""The keyboards that are pressed in pages."""

from __future__ import annotations

from matrixgen.model import (
    Action,
    ChangeBase,
    HoldLayer,
    Keyboard,
    Media,
    OnceModifiers,
    Press,
    StartBootLoader,
    TapHold,
)
from matrixgen.source import read_design
from tests.firmware.build_model import keyboard

SHIFT = 0x02


def desk_pad() -> Keyboard:
    """Sixteen keys, one of each kind that a page shows something of."""
    rows: list[list[str | None]] = [
        ["Esc", "A", "B", "1", "Tab"],
        ["Shift", "Caps", "Space", "Enter", "Home"],
        ["Fn", "Up", "Load", "Base", "Once"],
        ["A.2", "<b>", None, None, None],
    ]
    base: dict[str, Action] = {
        "Esc": Press(0x29),
        "A": TapHold(Press(0x04), Press(0, SHIFT), roll_ms=0),
        "A.2": Press(0x04),
        "B": Press(0x05),
        "1": Press(0x1E),
        "Tab": Press(0x2B),
        "Shift": Press(0, SHIFT),
        "Caps": Press(0x39),
        "Space": TapHold(Press(0x2C), HoldLayer("more")),
        "Enter": Press(0x28),
        "Home": Press(0x4A),
        "Fn": HoldLayer("more"),
        "Up": Media(0x0C, 0xE9),
        "Load": StartBootLoader(),
        "Base": ChangeBase("other"),
        "Once": OnceModifiers(0x01),
        "<b>": Press(0x64),
    }
    more: dict[str, Action] = {"A": Press(0x06), "Up": Media(0x01, 0x82)}
    other: dict[str, Action] = {"B": Press(0x1F)}
    layers = {"base": base, "other": other, "more": more}
    return keyboard(rows, layers, remember_base=True, name="Desk </script> pad")


DRAFT = """
plate
  line A B C

wiring
  row    r0  A B
  column c0  A
  column c1  B

keyboard "Draft"
  boot-loader hold A C
"""


def draft() -> Keyboard:
    """A keyboard without controller or pins, one of whose keys is not wired yet."""
    design, found = read_design("draft.keys", DRAFT)
    assert design is not None, found
    return design.keyboard


def plate_alone() -> Keyboard:
    design, found = read_design("plate.keys", "plate\n  line A B\n")
    assert design is not None, found
    return design.keyboard
