"""One .keys file through reading and every rule, for each command that needs a sound keyboard."""

from __future__ import annotations

import sys
from pathlib import Path

from matrixgen.boards import Profile, load_profile
from matrixgen.model import Diagnostic, Keyboard, in_file_order, variants
from matrixgen.model.record import record
from matrixgen.source import read_keyboard

STANDARD_INPUT = "-"
SHOWN_STANDARD_INPUT = "<stdin>"


@record
class Variant:
    """The keyboard on one of the controllers that its file names."""

    keyboard: Keyboard
    profile: Profile


@record
class Examined:
    """What became of one file. Without an error in `findings`, keyboard and profile are there.

    `variants` has the keyboard on each controller whose profile could be read, in the file's order;
    `keyboard` and `profile` are those of the first controller.
    `text` is what findings speak of: None where nothing of the file could be kept, so that whoever
    shows its lines reads them from `path`.
    """

    path: str
    text: str | None
    keyboard: Keyboard | None
    profile: Profile | None
    findings: tuple[Diagnostic, ...]
    variants: tuple[Variant, ...] = ()

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
    first, *_ = each = variants(keyboard)
    loaded = [(one, load_profile(one.controller, folder)) for one in each]
    findings += [found for _, (_, of_profile) in loaded for found in of_profile]
    found = tuple(Variant(one, profile) for one, (profile, _) in loaded if profile)
    if found:
        findings = _by_rules(found, findings)
    profile = found[0].profile if found and found[0].keyboard is first else None
    in_order = tuple(in_file_order(findings))
    return Examined(shown, keyboard.source.text, first, profile, in_order, found)


def _by_rules(each: tuple[Variant, ...], findings: list[Diagnostic]) -> list[Diagnostic]:
    """Return the findings and those of the rules, less what the file allows."""
    from matrixgen.rules import check_keyboard, without_allowed

    by_controller = {
        one.keyboard.controller.text: check_keyboard(one.keyboard, one.profile) for one in each
    }
    found = findings + _of_all(by_controller)
    keyboard = each[0].keyboard
    if not keyboard.allowed:
        return found
    from matrixgen.jobs.catalogue import catalogue

    return without_allowed(keyboard, found, catalogue())


def _of_all(by_controller: dict[str, list[Diagnostic]]) -> list[Diagnostic]:
    """Return what was found on any controller, and once what was found on several."""
    if len(by_controller) == 1:
        return next(iter(by_controller.values()))
    from matrixgen.jobs.merge import merged

    return merged(by_controller)
