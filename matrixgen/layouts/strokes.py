"""A key pressed with modifiers, and the level of a layout that they choose on each system."""

from __future__ import annotations

from typing import Literal

System = Literal["linux", "windows", "macos"]

SYSTEM_WORDS: dict[System, str] = {"linux": "Linux", "windows": "Windows", "macos": "macOS"}
SYSTEMS = tuple(SYSTEM_WORDS)

LEVELS = 4
"""Plain, Shift, AltGr, and Shift with AltGr; macOS has Option for AltGr."""

_CTRL, _SHIFT, _ALT = 0x01, 0x02, 0x04
_RIGHT_CTRL, _RIGHT_SHIFT, _ALT_GR = 0x10, 0x20, 0x40


def modifiers_of(level: int, system: System | None) -> int:
    """Return the modifiers that choose a level, 0 to 3."""
    third = _ALT if system == "macos" else _ALT_GR
    return (_SHIFT if level & 1 else 0) | (third if level & 2 else 0)


def level_of(modifiers: int, system: System | None) -> int | None:
    """Return the level, 0 to 3, that modifiers choose; None where the keys are a shortcut.

    On Windows, Ctrl with Alt is AltGr. On macOS either Option key chooses the third level.
    """
    shift = 1 if modifiers & (_SHIFT | _RIGHT_SHIFT) else 0
    others = modifiers & ~(_SHIFT | _RIGHT_SHIFT)
    if not others:
        return shift
    third = {_ALT_GR}
    if system == "macos":
        third = {_ALT, _ALT_GR, _ALT | _ALT_GR}
    elif system == "windows":
        third |= {ctrl | _ALT for ctrl in (_CTRL, _RIGHT_CTRL)}
    return 2 | shift if others in third else None
