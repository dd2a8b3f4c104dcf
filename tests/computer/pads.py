"""Keyboards with a key for everything that a layout has, or for a text, on a computer with it."""

from __future__ import annotations

from matrixgen.layouts import HostLayout, KeyStroke, layout_named
from matrixgen.layouts.strokes import System
from matrixgen.model import Action, Keyboard, Press
from matrixgen.model.actions import InTurn, Typed
from matrixgen.record import changed
from tests.firmware.build_model import keyboard, word

WRITING = (*range(0x04, 0x28), *range(0x2C, 0x39), 0x64)
"""The keys of the main block that may write something."""

HELD = {"shift": 0x02, "altgr": 0x40}
CAPS = "caps"


def on_computer(pad: Keyboard, name: str, system: System | None = None) -> Keyboard:
    """Return a keyboard whose file says what its computer is set to."""
    return changed(pad, computer=word(name), system=word(system) if system else None)


def key_of(usage: int) -> str:
    """Return the name of a key of a `whole_pad`."""
    return f"k{usage:02X}"


def whole_pad(name: str, system: System | None = None) -> Keyboard:
    """A keyboard with every key that writes, Shift, AltGr and Caps Lock."""
    cells: dict[str, Action] = {key_of(usage): Press(usage) for usage in WRITING}
    cells |= {held: Press(0, bit) for held, bit in HELD.items()}
    cells[CAPS] = Press(0x39)
    names: list[str | None] = [*cells]
    names += [None] * (-len(names) % 8)
    rows = [names[place : place + 8] for place in range(0, len(names), 8)]
    return on_computer(keyboard(rows, {"base": cells}, debounce_ms=1), name, system)


def typed(text: str, name: str, system: System | None = None) -> InTurn:
    """Return what types a text on a layout."""
    layout = there(name, system)
    ways = [layout.way(sign) for sign in text]
    assert all(ways), [sign for sign, way in zip(text, ways, strict=True) if not way]
    strokes: tuple[KeyStroke, ...] = tuple(stroke for way in ways if way for stroke in way)
    return InTurn((Typed(text, strokes),))


def text_pad(text: str, name: str, system: System | None = None) -> Keyboard:
    """A keyboard with a key that types a text, and Caps Lock."""
    cells: dict[str, Action] = {"say": typed(text, name, system), CAPS: Press(0x39)}
    return on_computer(keyboard([["say", CAPS]], {"base": cells}, debounce_ms=1), name, system)


def there(name: str, system: System | None = None) -> HostLayout:
    """Return a layout that there is."""
    layout = layout_named(name, system)
    assert layout is not None
    return layout
