"""A computer that types what a keyboard reports: libxkbcommon's state, dead keys and locks."""

from __future__ import annotations

from xkbcommon import xkb

from tests.layouts.x11 import compose_table, is_shortcut, key_codes, mark_of, x11_keymap
from tests.reports import first_usages

CAPS_LOCK_LED = 0x02
"""Its bit of the output report (HID 1.11 appendix B.1)."""

_DOWN, _UP = xkb.KeyDirection.XKB_KEY_DOWN, xkb.KeyDirection.XKB_KEY_UP
_ALONE, _COMPOSED = xkb.ComposeStatus.XKB_COMPOSE_NOTHING, xkb.ComposeStatus.XKB_COMPOSE_COMPOSED


class Computer:
    """Takes reports of either protocol, each key's change an event; `text` is what appeared.

    Of a report, modifiers are taken first: their usages are those that the descriptor has first.
    Shortcuts type nothing; `shortcuts` counts them.
    """

    def __init__(self, layout: str) -> None:
        self.text = ""
        self.shortcuts = 0
        self._state = x11_keymap(layout).state_new()
        self._compose = compose_table().compose_state_new()
        self._down: set[int] = set()

    @property
    def leds(self) -> int:
        """The output report that the keyboard is to get."""
        return CAPS_LOCK_LED if self._state.led_name_is_active("Caps Lock") else 0

    @property
    def is_all_up(self) -> bool:
        """Whether it takes every key to be up."""
        return not self._down

    def take(self, report: bytes) -> None:
        """Take what a keyboard with at most six keys down reports."""
        down = first_usages(report)
        for usage in sorted(down ^ self._down, key=lambda usage: (usage < 0xE0, usage)):
            code = key_codes()[usage]
            if usage in down and usage < 0xE0:
                self._press(code)
            self._state.update_key(code, _DOWN if usage in down else _UP)
        self._down = down

    def _press(self, code: int) -> None:
        ctrl = self._state.mod_name_is_active(
            "Control", xkb.StateComponent.XKB_STATE_MODS_DEPRESSED
        )
        if ctrl or is_shortcut(self._state):
            self.shortcuts += 1
            return
        symbol = self._state.key_get_one_sym(code)
        self._compose.feed(symbol)
        status = self._compose.get_status()
        if status == _COMPOSED:
            self.text += self._compose.get_utf8()
        elif status == _ALONE:
            self.text += mark_of(symbol) or ""
