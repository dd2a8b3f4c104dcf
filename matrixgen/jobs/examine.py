"""One .keys file through reading and every rule, for each command that needs a sound keyboard."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Set
from pathlib import Path

from matrixgen.boards import Committed, DiodePart, Mounted, Profile, load_diode, load_profile
from matrixgen.jobs.problems import PROBLEMS
from matrixgen.jobs.room import FORETOLD, may_lack_room
from matrixgen.model import Design, Diagnostic, in_file_order
from matrixgen.reach import folder_of
from matrixgen.record import Record, changed
from matrixgen.rules import OpenPoint, check_keyboard, check_mounted, open_points
from matrixgen.source import read_design
from matrixgen.source.limits import LIMITS

STANDARD_INPUT = "-"
SHOWN_STANDARD_INPUT = "<stdin>"
NOTHING: frozenset[str] = frozenset()


class Examined(Record, kw_only=True):
    """What became of one file.

    `design` is what could be read of it: None where a finding of the reader is an error. `mounted`
    has the keyboard on each controller whose profile could be loaded, in the file's order, and
    `diode` what is known of its diodes: None if they are of a kind that is not known. `text`
    is what findings speak of: None where nothing of the file could be kept, so that whoever shows
    its lines reads them from `path`.
    """

    path: str
    text: str | None
    findings: tuple[Diagnostic, ...]
    design: Design | None = None
    mounted: tuple[Mounted, ...] = ()
    diode: DiodePart | None = None
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
        """Whether nothing is wrong with what is there: warnings and open points do not count.

        A keyboard whose image is too large is sound: it may be drawn, compared, and played.
        """
        return all(found.slug in FORETOLD for found in self.errors)

    @property
    def is_finished(self) -> bool:
        """Whether a keyboard can be built of it."""
        return self.is_sound and not self.open_points

    @property
    def only_planned(self) -> tuple[Mounted, ...]:
        """The keyboard on each controller that there is no firmware for."""
        return tuple(one for one in self.mounted if one.profile.port is None)

    @property
    def missing(self) -> tuple[str, ...]:
        """What the file leaves open, in a few words each, once each."""
        return tuple(dict.fromkeys(point.missing for point in self.open_points))

    def as_finished(self) -> Examined:
        """Return it with each open point as an error."""
        findings = (*self.findings, *(point.finding for point in self.open_points))
        return changed(self, findings=tuple(in_file_order(findings)), open_points=())

    def as_built(self) -> Examined:
        """Return it as a build sees it: finished, and without what a build measures itself."""
        finished = self.as_finished()
        findings = tuple(found for found in finished.findings if found.slug not in FORETOLD)
        return changed(finished, findings=findings)

    def as_built_for_all(self) -> Examined:
        """Return it finished, with an error for each controller that nothing can be built for."""
        finished = self.as_finished()
        without = map(without_firmware, self.only_planned)
        return changed(finished, findings=tuple(in_file_order((*finished.findings, *without))))


def examine(path: str) -> Examined:
    """Read the file at `path`, or standard input for `-`, and check it."""
    if path == STANDARD_INPUT:
        return examine_text(SHOWN_STANDARD_INPUT, standard_input(), Path())
    return examine_text(path, None, folder_of(path))


def standard_input() -> str:
    """Return what standard input has, up to one byte more than a file may have."""
    return sys.stdin.buffer.read(LIMITS.file_bytes + 1).decode("utf-8", "surrogateescape")


def examine_text(
    shown: str, text: str | None, folder: Path, committed: Committed | None = None
) -> Examined:
    """Check `text` as if it stood in the file `shown`; without one, that file.

    Profiles and diodes that are given by their path are looked for in the revision that `text` is
    of, if it is of one, and then from `folder`.
    """
    read = read_and_mounted(shown, text, folder, committed)
    return concluded(read, read.design, _by_rules(read, read.design)) if read.design else read


def read_and_mounted(
    shown: str, text: str | None, folder: Path, committed: Committed | None = None
) -> Examined:
    """Return what `examine_text` does, but by no rule: its findings are those of who reads."""
    design, findings = read_design(shown, text)
    if design is None:
        return Examined(path=shown, text=text, findings=tuple(findings))
    diodes = design.keyboard.wiring.diodes
    diode, of_diode = load_diode(diodes.part if diodes else None, folder, committed)
    findings += of_diode
    mounted = []
    for mounting in design.mountings:
        profile, of_profile = load_profile(mounting.controller, folder, committed)
        findings += of_profile
        if profile:
            mounted.append(Mounted(design.keyboard, mounting, profile, diode))
    return Examined(
        path=shown,
        text=design.source.text,
        findings=tuple(findings),
        design=design,
        mounted=tuple(mounted),
        diode=diode,
    )


def _by_rules(read: Examined, design: Design) -> list[Diagnostic]:
    return [
        *check_keyboard(design.keyboard, design.allowances),
        *(found for one in read.mounted for found in check_mounted(one)),
    ]


def concluded(
    read: Examined, design: Design, by_rules: Iterable[Diagnostic], unasked: Set[str] = NOTHING
) -> Examined:
    """Return what was read with what the rules found in it, sorted by what the file allows.

    `unasked` are the slugs of what is still to be looked for: of those nothing is concluded.
    """
    mounted = read.mounted
    found = [*read.findings, *by_rules]
    still_open = tuple(open_points(design, mounted))
    foretells = not unasked and not still_open and not any(one.is_error for one in found)
    if foretells:
        found += [foretold for one in mounted for foretold in _foretold(one)]
    allowed: list[Diagnostic] = []
    if design.allowances:
        has_all = not still_open and len(mounted) == len(design.mountings)
        unasked = unasked if foretells else unasked | FORETOLD
        found, allowed = _sorted(design, found, unasked, has_all=has_all)
    return changed(
        read,
        findings=tuple(in_file_order(found)),
        allowed=tuple(in_file_order(allowed)),
        open_points=still_open,
    )


def _foretold(mounted: Mounted) -> Iterator[Diagnostic]:
    """Yield what a build will say of the image of a keyboard that nothing is wrong with."""
    if may_lack_room(mounted):
        from matrixgen.jobs.foretell import room_findings  # most keyboards need not wait for it

        yield from room_findings(mounted)


def without_firmware(mounted: Mounted) -> Diagnostic:
    """Return the finding that nothing can be built for a controller."""
    why, help = no_firmware(mounted.profile)
    return PROBLEMS["controller-without-firmware"].at(mounted.controller.span, why, help=help)


def no_firmware(profile: Profile) -> tuple[str, str]:
    """Return why nothing can be built for a controller, and what to do."""
    return (
        f"only the pins of `{profile.name}` are known, and there is no firmware for its chip yet",
        "`matrixgen boards` shows which controllers have firmware",
    )


def _sorted(
    design: Design, found: list[Diagnostic], unasked: Set[str], *, has_all: bool
) -> tuple[list[Diagnostic], list[Diagnostic]]:
    """Return what to report and what the file allows; of what is `unasked` nothing is known."""
    from matrixgen.jobs.catalogue import catalogue, find_problem
    from matrixgen.rules.settings.allow_without_effect import sorted_by_allowance

    allowances = [one for one in design.allowances if one.slug.text not in unasked]
    by_allowance = sorted_by_allowance(allowances, found, find_problem, catalogue, has_all=has_all)
    return by_allowance.shown, by_allowance.allowed


def wrong_after(text: str, path: str) -> Examined | None:
    """Return what is found in a file with this text if that is wrong; None if it can be written."""
    after = examine_text(path, text, Path(path).parent)
    return None if after.is_sound and after.design else after
