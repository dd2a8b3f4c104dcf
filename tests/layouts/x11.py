"""X11's layouts as libxkbcommon has them: what keys give, and what a computer types for strokes.

The data are those of Debian's `xkb-data` and, for the pairs of a dead key and another, of the
locale en_US.UTF-8 in `libx11-data`. From usage to X key code: the kernel's table of the keyboard
page (`tests/language/data/hid_to_evdev.csv`).
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable, Sequence
from pathlib import Path
from xml.etree import ElementTree

from xkbcommon import xkb

from tests.documents import rows_of

DATA = Path("/usr/share/X11/xkb")
PKG_CONFIG = Path("/usr/share/pkgconfig/xkeyboard-config.pc")
KERNEL_TABLE = Path(__file__).parents[1] / "language" / "data" / "hid_to_evdev.csv"
LOCALE = "en_US.UTF-8"
DEAD = "dead_"

SHIFT, ALT_GR, CAPS_LOCK, NUM_LOCK = 0xE1, 0xE6, 0x39, 0x53
MODIFIER_BITS = {0x02: SHIFT, 0x40: ALT_GR}
LEVELS = (0x00, 0x02, 0x40, 0x42)
"""The modifiers of the four levels, as bits of a report."""

KEYPAD = range(0x54, 0x64)

_DOWN, _UP = xkb.KeyDirection.XKB_KEY_DOWN, xkb.KeyDirection.XKB_KEY_UP


def version() -> str:
    """Return the release of xkb-data that this computer has."""
    found = re.search(r"^Version: *(\S+)", PKG_CONFIG.read_text("utf-8"), re.MULTILINE)
    assert found, f"{PKG_CONFIG} states no version"
    return found[1]


def languages() -> dict[str, str]:
    """Return the language, in words, of each layout that X11's registry names."""
    found = {}
    for layout in ElementTree.parse(DATA / "rules" / "evdev.xml").iter("layout"):
        name = layout.findtext("configItem/name")
        found[name] = layout.findtext("configItem/description")
        for variant in layout.iter("variant"):
            whole = f"{name}({variant.findtext('configItem/name')})"
            found[whole] = variant.findtext("configItem/description")
    return found


@functools.cache
def key_codes() -> dict[int, int]:
    """Return the X key code of each usage that has one."""
    rows = (row for row in rows_of(KERNEL_TABLE) if row["xkb_keycode"])
    return {int(row["usage_hex"], 16): int(row["xkb_keycode"]) for row in rows}


@functools.cache
def _context() -> xkb.Context:
    return xkb.Context()


@functools.cache
def compose_table() -> xkb.ComposeTable:
    return _context().compose_table_new_from_locale(LOCALE)


@functools.cache
def x11_keymap(name: str) -> xkb.Keymap:
    """Return the keymap of a layout by its registry name, for a keyboard of 105 keys."""
    layout, _, variant = name.rstrip(")").partition("(")
    return _context().keymap_new_from_names(
        rules="evdev", model="pc105", layout=layout, variant=variant or None
    )


@functools.cache
def state_with(name: str, modifiers: int, *, caps: bool = False, numbers: bool = False):
    """Return the state of a computer with modifiers held, and the locks pressed before.

    It is shared: ask it, and change nothing.
    """
    state = x11_keymap(name).state_new()
    locks = [*([CAPS_LOCK] if caps else []), *([NUM_LOCK] if numbers else [])]
    for usage in locks:
        state.update_key(key_codes()[usage], _DOWN)
        state.update_key(key_codes()[usage], _UP)
    for bit, usage in MODIFIER_BITS.items():
        if modifiers & bit:
            state.update_key(key_codes()[usage], _DOWN)
    return state


def is_shortcut(state) -> bool:
    """Whether Alt is held: then a key is a shortcut and types nothing."""
    return bool(state.mod_name_is_active("Mod1", xkb.StateComponent.XKB_STATE_MODS_EFFECTIVE))


def mark_of(symbol: int) -> str | None:
    """Return the sign of a key symbol, the name of a dead key, or None where it is neither."""
    name = xkb.keysym_get_name(symbol)
    if name.startswith(DEAD):
        return name.removeprefix(DEAD)
    text = xkb.keysym_to_string(symbol) if symbol else ""
    return text if text and len(text) == 1 and not _is_control(text) else None


def _is_control(sign: str) -> bool:
    return sign < " " or "\x7f" <= sign < "\xa0"


def symbols(name: str, usages: Iterable[int], *, caps: bool = False) -> dict[int, list[int]]:
    """Return the key symbols of the four levels of each usage; 0 where a level has none.

    Those of the keypad are given with Num Lock on.
    """
    codes, found = key_codes(), {}
    states = {
        numbers: [state_with(name, level, caps=caps, numbers=numbers) for level in LEVELS]
        for numbers in (False, True)
    }
    for usage in usages:
        found[usage] = [
            0 if is_shortcut(state) else state.key_get_one_sym(codes[usage])
            for state in states[usage in KEYPAD]
        ]
    return found


def composed(first: int, second: int) -> str | None:
    """Return what two key symbols, one after the other, make; None where they make nothing.

    It is one sign, or a letter and what is put over it where Unicode has no sign for both.
    """
    state = _compose_state()
    state.reset()
    state.feed(first)
    state.feed(second)
    if state.get_status() != xkb.ComposeStatus.XKB_COMPOSE_COMPOSED:
        return None
    text = state.get_utf8()
    return text if text and not any(map(_is_control, text)) else None


@functools.cache
def _compose_state() -> xkb.ComposeState:
    return compose_table().compose_state_new()


def x11_text(name: str, strokes: Sequence[tuple[int, int]], *, caps: bool = False) -> str:
    """Return what a computer types for strokes (usage, modifiers), each a key event of its own."""
    compose, text = compose_table().compose_state_new(), []
    for usage, modifiers in strokes:
        state = state_with(name, modifiers, caps=caps, numbers=usage in KEYPAD)
        if is_shortcut(state):
            continue
        symbol = state.key_get_one_sym(key_codes()[usage])
        compose.feed(symbol)
        status = compose.get_status()
        if status == xkb.ComposeStatus.XKB_COMPOSE_COMPOSED:
            text.append(compose.get_utf8())
        elif status == xkb.ComposeStatus.XKB_COMPOSE_NOTHING:
            text.append(mark_of(symbol) or "")
    return "".join(text)
