"""One .keys file through reading and every rule, for each command that needs a sound keyboard."""

from __future__ import annotations

import sys
from pathlib import Path

from matrixgen.boards import Profile, load_profile
from matrixgen.model import Diagnostic, Keyboard, in_file_order
from matrixgen.model.record import record
from matrixgen.source import read_keyboard

STANDARD_INPUT = "-"
SHOWN_STANDARD_INPUT = "<stdin>"


@record
class Examined:
    """What became of one file. Without an error in `findings`, keyboard and profile are there.

    `text` is what findings speak of: None where nothing of the file could be kept, so that whoever
    shows its lines reads them from `path`.
    """

    path: str
    text: str | None
    keyboard: Keyboard | None
    profile: Profile | None
    findings: tuple[Diagnostic, ...]

    @property
    def is_sound(self) -> bool:
        """Whether a keyboard can be built of it: warnings do not count."""
        return not any(found.is_error for found in self.findings)


def examine(path: str) -> Examined:
    """Read the file at `path`, or standard input for `-`, and check it."""
    shown, text = path, None
    if path == STANDARD_INPUT:
        shown = SHOWN_STANDARD_INPUT
        text = sys.stdin.buffer.read().decode("utf-8", "surrogateescape")
    keyboard, findings = read_keyboard(shown, text)
    if keyboard is None:
        return Examined(shown, text, None, None, tuple(in_file_order(findings)))
    folder = Path() if path == STANDARD_INPUT else Path(path).parent
    profile, of_profile = load_profile(keyboard.controller, folder)
    findings = findings + of_profile
    if profile:
        findings = _by_rules(keyboard, profile, findings)
    return Examined(shown, keyboard.source.text, keyboard, profile, tuple(in_file_order(findings)))


def _by_rules(keyboard: Keyboard, profile: Profile, findings: list[Diagnostic]) -> list[Diagnostic]:
    from matrixgen.rules import check_keyboard, without_allowed

    found = findings + check_keyboard(keyboard, profile)
    if not keyboard.allowed:
        return found
    from matrixgen.jobs.catalogue import catalogue

    return without_allowed(keyboard, found, catalogue())
