"""A rehearsal on the terminal: real time, typed keys, one screen."""

from __future__ import annotations

import locale
import time
from contextlib import suppress
from typing import TYPE_CHECKING

from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_to_print import AS_THE_TERMINAL_CAN
from matrixgen.cli.rehearse_screen import screen
from matrixgen.model import Keyboard
from matrixgen.rehearse.session import LiveRehearsal

if TYPE_CHECKING:
    import curses

INSTEAD = "`--script FILE` plays a script instead, or pipe one in"
LOOK_EVERY_MS, DRAW_EVERY_MS, ESCAPE_MS = 5, 50, 25
CTRL_C, CTRL_T = "\x03", "\x14"

CONTROLS = {
    "\x1b": "Escape",
    "\r": "Enter",
    "\n": "Enter",
    "\t": "Tab",
    "\x7f": "Backspace",
    "\b": "Backspace",
}
"""Letters that are no letters, by the words of the keys that send them."""

NAMED = {
    "KEY_UP": "Up",
    "KEY_DOWN": "Down",
    "KEY_LEFT": "Left",
    "KEY_RIGHT": "Right",
    "KEY_HOME": "Home",
    "KEY_END": "End",
    "KEY_IC": "Insert",
    "KEY_DC": "Delete",
    "KEY_PPAGE": "PageUp",
    "KEY_NPAGE": "PageDown",
    "KEY_BACKSPACE": "Backspace",
    "KEY_ENTER": "Enter",
    **{f"KEY_F({number})": f"F{number}" for number in range(1, 13)},
}
"""Keys by the names that `curses` has for them."""


def rehearse_on_terminal(keyboard: Keyboard) -> int:
    """Let the user type until they leave, and return the exit status."""
    try:
        import curses
    except ImportError:
        return complain("this Python has no `curses`, which draws on terminals", INSTEAD)
    locale.setlocale(locale.LC_ALL, "")
    try:
        curses.setupterm()
        if curses.tigetstr("cup") is None:
            return complain("this terminal cannot place its cursor", INSTEAD)
        curses.set_escdelay(ESCAPE_MS)
        curses.wrapper(_run, LiveRehearsal(keyboard))
    except curses.error as error:
        return complain(f"this terminal cannot be drawn on: {error}", INSTEAD)
    except KeyboardInterrupt:  # before the terminal hands Ctrl-C on as a letter
        pass
    return FINE


def _run(window: curses.window, session: LiveRehearsal) -> None:
    import curses

    curses.raw()  # Ctrl-C and Ctrl-T come as letters
    window.timeout(LOOK_EVERY_MS)
    clock, drawn = _Clock(), None
    while not session.leaves:
        session.pass_ms(clock.passed_ms())
        if drawn is None or clock.now_ms - drawn >= DRAW_EVERY_MS:
            _draw(window, session)
            drawn = clock.now_ms
        try:
            _take(window.get_wch(), session)
        except curses.error:  # nothing was typed
            continue
        drawn = None


class _Clock:
    """Counts milliseconds, each one once."""

    def __init__(self) -> None:
        self._start = time.monotonic()
        self.now_ms = 0

    def passed_ms(self) -> int:
        """Return how many whole milliseconds have passed since this was asked last."""
        before = self.now_ms
        self.now_ms = int((time.monotonic() - self._start) * 1000)
        return self.now_ms - before


def _draw(window: curses.window, session: LiveRehearsal) -> None:
    import curses

    height, width = window.getmaxyx()
    window.erase()
    encoding = window.encoding
    for number, line in enumerate(screen(session, width, height)):
        shown = line.encode(encoding, AS_THE_TERMINAL_CAN).decode(encoding)
        with suppress(curses.error):  # of a window that is too small, or that shrank just now
            window.addnstr(number, 0, shown, width - 1)
    window.refresh()


def _take(typed: str | int, session: LiveRehearsal) -> None:
    """Do what a letter or one of the terminal's own keys asks for."""
    import curses

    if isinstance(typed, int):
        name = curses.keyname(typed).decode("ascii", "replace")
        if name == "KEY_BTAB":
            session.type_key("Tab", shift=True)
        elif name in NAMED:
            session.type_key(NAMED[name])
    elif typed == CTRL_C:
        session.leaves = True
    elif typed == CTRL_T:
        session.toggle_stay()
    elif typed in CONTROLS:
        session.type_key(CONTROLS[typed])
    elif typed.isprintable():
        session.type_letter(typed)
