"""One .keys file through reading and every rule, for each command that needs a sound keyboard."""

from __future__ import annotations

import sys
from pathlib import Path

from matrixgen.boards import Mounted, load_diode, load_profile
from matrixgen.model import Design, Diagnostic, in_file_order
from matrixgen.record import Record, changed
from matrixgen.rules import OpenPoint, check_keyboard, check_mounted, open_points
from matrixgen.source import read_design

STANDARD_INPUT = "-"
SHOWN_STANDARD_INPUT = "<stdin>"


class Examined(Record, kw_only=True):
    """What became of one file.

    `design` is what could be read of it: None where a finding of the reader is an error. `mounted`
    has the keyboard on each controller whose profile could be loaded, in the file's order. `text`
    is what findings speak of: None where nothing of the file could be kept, so that whoever shows
    its lines reads them from `path`.
    """

    path: str
    text: str | None
    findings: tuple[Diagnostic, ...]
    design: Design | None = None
    mounted: tuple[Mounted, ...] = ()
    allowed: tuple[Diagnostic, ...] = ()
    open_points: tuple[OpenPoint, ...] = ()

    @property
    def texts(self) -> dict[str, str]:
        """Its text by its path, where it could be kept."""
        return {self.path: self.text} if self.text is not None else {}

    @property
    def errors(self) -> list[Diagnostic]:
        """The findings that are errors."""
        return [found for found in self.findings if found.is_error]

    @property
    def is_sound(self) -> bool:
        """Whether nothing is wrong with what is there: warnings and open points do not count."""
        return not self.errors

    @property
    def is_finished(self) -> bool:
        """Whether a keyboard can be built of it."""
        return self.is_sound and not self.open_points

    @property
    def missing(self) -> tuple[str, ...]:
        """What the file leaves open, in a few words each, once each."""
        return tuple(dict.fromkeys(point.missing for point in self.open_points))

    def as_finished(self) -> Examined:
        """Return it as a build sees it: each open point is an error."""
        findings = (*self.findings, *(point.finding for point in self.open_points))
        return changed(self, findings=tuple(in_file_order(findings)), open_points=())


def examine(path: str) -> Examined:
    """Read the file at `path`, or standard input for `-`, and check it."""
    if path == STANDARD_INPUT:
        text = sys.stdin.buffer.read().decode("utf-8", "surrogateescape")
        return examine_text(SHOWN_STANDARD_INPUT, text, Path())
    return examine_text(path, None, Path(path).parent)


def examine_text(shown: str, text: str | None, folder: Path) -> Examined:
    """Check `text` as if it stood in the file `shown`; without one, that file.

    Profiles and diodes that are given by their path are looked for from `folder`.
    """
    design, findings = read_design(shown, text)
    if design is None:
        return Examined(path=shown, text=text, findings=tuple(findings))
    diodes = design.keyboard.wiring.diodes
    diode, of_diode = load_diode(diodes.part if diodes else None, folder)
    findings += of_diode
    mounted = []
    for mounting in design.mountings:
        profile, of_profile = load_profile(mounting.controller, folder)
        findings += of_profile
        if profile:
            mounted.append(Mounted(design.keyboard, mounting, profile, diode))
    return _by_rules(shown, design, tuple(mounted), findings)


def _by_rules(
    shown: str, design: Design, mounted: tuple[Mounted, ...], findings: list[Diagnostic]
) -> Examined:
    """Return a design with what the rules find in it, sorted by what the file allows."""
    found = [
        *findings,
        *check_keyboard(design.keyboard, design.allowances),
        *(found for one in mounted for found in check_mounted(one)),
    ]
    allowed: list[Diagnostic] = []
    still_open = tuple(open_points(design, mounted))
    if design.allowances:
        has_all = not still_open and len(mounted) == len(design.mountings)
        found, allowed = _sorted(design, found, has_all=has_all)
    return Examined(
        path=shown,
        text=design.source.text,
        design=design,
        mounted=mounted,
        findings=tuple(in_file_order(found)),
        allowed=tuple(in_file_order(allowed)),
        open_points=still_open,
    )


def _sorted(
    design: Design, found: list[Diagnostic], *, has_all: bool
) -> tuple[list[Diagnostic], list[Diagnostic]]:
    """Return what is to be told and what the file allows."""
    from matrixgen.jobs.catalogue import catalogue, find_problem
    from matrixgen.rules.settings.allow_without_effect import sorted_by_allowance

    by_allowance = sorted_by_allowance(
        design.allowances, found, find_problem, catalogue, has_all=has_all
    )
    return by_allowance.told, by_allowance.allowed


def wrong_after(text: str, path: str) -> Examined | None:
    """Return what is found in a file with this text if that is wrong; None if it can be written."""
    after = examine_text(path, text, Path(path).parent)
    return None if after.is_sound and after.design else after
