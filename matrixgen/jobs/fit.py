"""Fitting a keyboard: which controllers, which matrices, and a wiring for one of them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from matrixgen.boards import Mounted, Profile, builtin_names, builtin_profile, usual_diode
from matrixgen.boards.diode_part import DiodePart
from matrixgen.circuit.over_supply import LevelsOverSupply
from matrixgen.fit.block import block_text, with_block
from matrixgen.fit.controllers import Candidate, candidate
from matrixgen.fit.layout import Layout
from matrixgen.fit.new_wiring import NewLine, new_lines, wired_anew, with_pins
from matrixgen.fit.replace_lines import with_lines
from matrixgen.fit.search import Progress, lay_out
from matrixgen.fit.shapes import Fitting, Shape, Size, shapes_of
from matrixgen.jobs.examine import Examined
from matrixgen.model import Design, Mounting, Word, matrix_of
from matrixgen.record import Record
from matrixgen.rules import check_mounted


class Fit(Record):
    """A sound file whose keyboard is to be fitted; `profiles` are those that it names."""

    design: Design
    diode: DiodePart
    profiles: tuple[Profile, ...]

    @cached_property
    def fitting(self) -> Fitting:
        """The keyboard."""
        return Fitting(self.design.keyboard)

    def shapes(self, progress: Progress) -> list[Shape]:
        """Return the matrix as it is and each with fewer lines, laid out."""
        return list(shapes_of(self.fitting, progress))

    def laid_out(self, size: Size, progress: Progress) -> Layout | None:
        """Return a layout of one size; None where it does not hold the keys."""
        fitting = self.fitting
        return lay_out(fitting.plan, *size, drawn=fitting.drawn, progress=progress)

    def candidates(self, shapes: Sequence[Shape]) -> list[Candidate]:
        """Return how the keyboard fits on every controller, the file's own profiles first."""
        own = (profile for profile in self.profiles if profile.path)
        lines = {shape.size: new_lines(self.design.keyboard, shape.layout) for shape in shapes}
        builtin = (profile for name in builtin_names() if (profile := builtin_profile(name)))

        def mount(profile: Profile, size: Size) -> Mounted | None:
            return self._mounted(profile, lines[size])

        return [
            candidate(profile, list(lines), mount, check_mounted) for profile in (*own, *builtin)
        ]

    def _mounted(self, profile: Profile, lines: Sequence[NewLine]) -> Mounted | None:
        """Return the keyboard with these wires on a controller; None if that has too few pins."""
        keyboard = wired_anew(self.design.keyboard, lines, self.diode.name)
        placed = with_pins(lines, [profile], keyboard.wiring.drive, {})
        if placed is None:
            return None
        place = keyboard.plate.span
        pins = {line.name: Word(line.pins[0], place) for line in placed}
        return Mounted(keyboard, Mounting(Word(profile.name, place), pins), profile, self.diode)

    def placed(self, layout: Layout, profiles: Sequence[Profile]) -> list[NewLine] | None:
        """Return the wires of a layout with pins of some controllers; None if one has too few."""
        lines = new_lines(self.design.keyboard, layout)
        return with_pins(lines, profiles, self.design.keyboard.wiring.drive, self.design.pins)

    def sure_diode(self, lines: Sequence[NewLine], profiles: Sequence[Profile]) -> str:
        """Return the diode to write: one with which keys read low for sure on each controller."""
        for profile in profiles:
            mounted = self._mounted(profile, lines)
            if mounted is None:
                continue
            levels = LevelsOverSupply(mounted, matrix_of(mounted.keyboard), self.diode)
            if levels.diode_to_take is not self.diode:
                return levels.diode_to_take.name
        return self.diode.name

    def block(self, lines: Sequence[NewLine], diode: str) -> str:
        """Return a block `wiring` with some wires."""
        return block_text(lines, diode, self.fitting.place)

    def text(self, lines: Sequence[NewLine], diode: str, controller: str | None) -> str:
        """Return the file's text with some wires: in its own block, or in a new one."""
        if self.design.keyboard.wiring.is_given:
            return with_lines(self.design.source, lines, self.fitting.place)
        return with_block(self.design.source, self.block(lines, diode), controller)


def fit_of(examined: Examined) -> Fit:
    """Return a sound file as something to be fitted."""
    assert examined.design
    profiles = tuple(one.profile for one in examined.mounted)
    diodes = [one.diode for one in examined.mounted if one.diode]
    return Fit(examined.design, diodes[0] if diodes else usual_diode(), profiles)
