"""A computer with X11: libxkbcommon's state, told of every key that goes down or up."""

from __future__ import annotations

from collections.abc import Iterable

from xkbcommon import xkb

from matrixgen.layouts import KeyStroke
from tests.layouts.x11 import (
    CAPS_LOCK,
    MODIFIER_BITS,
    compose_table,
    is_shortcut,
    key_codes,
    mark_of,
    x11_keymap,
)

DOWN, UP = xkb.KeyDirection.XKB_KEY_DOWN, xkb.KeyDirection.XKB_KEY_UP


def has_caps_lock(name: str) -> bool:
    """Whether Caps Lock is what its keycap says: `us(colemak)` has Backspace there."""
    symbol = x11_keymap(name).state_new().key_get_one_sym(key_codes()[CAPS_LOCK])
    return bool(xkb.keysym_get_name(symbol) == "Caps_Lock")


def x11_writes(name: str, strokes: Iterable[KeyStroke]) -> str:
    """Return what is written for strokes one after the other; Caps Lock is a stroke like others."""
    state, compose = x11_keymap(name).state_new(), compose_table().compose_state_new()
    text, codes = [], key_codes()
    for stroke in strokes:
        held = [codes[usage] for bit, usage in MODIFIER_BITS.items() if stroke.modifiers & bit]
        for code in held:
            state.update_key(code, DOWN)
        code = codes[stroke.usage]
        written = _written(state.key_get_one_sym(code), compose)
        text.append("" if is_shortcut(state) else written)
        for one, way in ((code, DOWN), (code, UP), *((one, UP) for one in held)):
            state.update_key(one, way)
    return "".join(text)


def _written(symbol: int, compose: xkb.ComposeState) -> str:
    if compose.feed(symbol) == xkb.ComposeFeedResult.XKB_COMPOSE_FEED_IGNORED:
        return ""
    status = compose.get_status()
    if status == xkb.ComposeStatus.XKB_COMPOSE_COMPOSED:
        return str(compose.get_utf8())
    if status == xkb.ComposeStatus.XKB_COMPOSE_NOTHING:
        return mark_of(symbol) or ""
    return ""
