"""A rehearsal at a terminal, without the terminal: keys that are typed in, what to show out."""

from __future__ import annotations

from collections import deque

from matrixgen.computer.setting import layout_of
from matrixgen.layouts.host_layout import Way
from matrixgen.model import Keyboard
from matrixgen.rehearse.fingers import Fingers, ways_to, ways_to_key
from matrixgen.rehearse.happening import BootLoaderStarts, Does, Happening, Lingers, Reported
from matrixgen.rehearse.rehearsal import Rehearsal

SHOWN_REPORTS = 10
LONGEST_SLEEP_MS = 1000
"""The clock leaves out longer times in which this program did not run, such as a suspension."""

LEAVES = "Esc again leaves"
BOOT_LOADER = "at {} ms the keyboard became its boot loader; it was plugged in again"


class LiveRehearsal:
    """What was typed so far, and what came of it.

    `line` is the line of steps that is being written, None while letters press keys. `leaves` turns
    true once the user has asked for it.
    """

    def __init__(self, keyboard: Keyboard) -> None:
        self.leaves = False
        self.line: str | None = None
        self.layout = layout_of(keyboard)
        self.message = ""
        self._escaped = False
        self._start(keyboard)

    def _start(self, keyboard: Keyboard) -> None:
        self.rehearsal = Rehearsal(keyboard)
        self.fingers = Fingers(self.rehearsal)
        self.reports: deque[Reported] = deque(maxlen=SHOWN_REPORTS)
        self.last: Does | None = None
        self.lingers = Lingers(0, (), ())

    def pass_ms(self, ms: int) -> None:
        """Let time pass."""
        for _ in range(min(ms, LONGEST_SLEEP_MS)):
            for one in self.rehearsal.tick():
                self._note(one)

    def _note(self, one: Happening) -> None:
        match one:
            case Reported():
                self.reports.append(one)
            case Does():
                self.last = one
            case Lingers():
                self.lingers = one
            case BootLoaderStarts():
                self._start(self.fingers.keyboard)
                self.message = BOOT_LOADER.format(one.at_ms)
            case _:
                pass

    def type_letter(self, letter: str) -> None:
        """Take a letter, which is a key's or the line's."""
        self._escaped = False
        if self.line is not None:
            self.line += letter
        elif letter == ":":
            self.line, self.message = "", ""
        elif ways := ways_to(letter, self.layout):
            self._type(ways, letter)
        elif self.layout:
            self.message = f"`{letter}`: the layout `{self.layout.name}` has no way to type it"
        else:
            self.message = f"`{letter}`: no key of a US layout types it"

    def type_key(self, word: str, *, shift: bool = False) -> None:
        """Take a key that types no letter, by its word; some of them edit the line."""
        if self.line is not None:
            self._edit(word)
            return
        self.leaves = word == "Escape" and self._escaped
        self._escaped = word == "Escape"
        self._type(ways_to_key(word, shift=shift), word)
        if self._escaped:
            self.message = LEAVES

    def toggle_stay(self) -> None:
        """Let typed keys stay down until typed again, or be let go by themselves."""
        self._escaped = False
        self.fingers.stay = not self.fingers.stay

    def _type(self, ways: list[Way], shown: str) -> None:
        wrong = self.fingers.type(ways)
        self.message = f"`{shown}`: {wrong}" if wrong else ""

    def _edit(self, word: str) -> None:
        line = self.line or ""
        if word == "Backspace" and line:
            self.line = line[:-1]
        elif word in ("Backspace", "Escape"):
            self.line = None
        elif word == "Enter":
            self.line = None
            self.message = self.fingers.play(line) or ""
