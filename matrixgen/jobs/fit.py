"""Fitting a keyboard: which controllers, which matrices, and a wiring for one of them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from pathlib import Path

from matrixgen.boards import Mounted, Profile, builtin_names, builtin_profile, usual_diode
from matrixgen.boards.diode_part import DiodePart
from matrixgen.circuit.over_supply import diode_for
from matrixgen.fit.block import block_text, diodes_text, filled_block, lines_text, with_block
from matrixgen.fit.choice import Choice
from matrixgen.fit.controllers import Candidate, candidate, choice_on
from matrixgen.fit.expanders import ExpandedMatrix, with_expanders
from matrixgen.fit.kept_pins import with_pins_for, with_pins_kept, without_components
from matrixgen.fit.keyboard_block import with_controller
from matrixgen.fit.layout import Layout
from matrixgen.fit.new_wiring import NewLine, new_lines, wired_anew, with_pins
from matrixgen.fit.replace_lines import with_lines
from matrixgen.fit.search import Progress, lay_out
from matrixgen.fit.shapes import Fitting, Shape, Size, shapes_of
from matrixgen.jobs.examine import Examined
from matrixgen.model import Design, Mounting, SourceText, Word
from matrixgen.record import Record
from matrixgen.rules import check_mounted

MOST_NAME = 60
"""Letters of a file's name that a keyboard is called by: no more than USB takes of any letter."""


class FitTables(Record):
    """What a keyboard fits: its matrices, the controllers, and matrices with port expanders."""

    keys: int
    shapes: list[Shape]
    candidates: list[Candidate]
    expanded: list[ExpandedMatrix]


class Fit(Record):
    """A sound file whose keyboard is to be fitted; `profiles` are those that it names."""

    design: Design
    diode: DiodePart
    profiles: tuple[Profile, ...]

    @cached_property
    def fitting(self) -> Fitting:
        """The keyboard."""
        return Fitting(self.design.keyboard)

    def tables(self, progress: Progress) -> FitTables:
        """Return everything that it fits."""
        keys, shapes = len(self.design.keyboard.keys), self.shapes(progress)
        return FitTables(keys, shapes, self.candidates(shapes), with_expanders(keys))

    def shapes(self, progress: Progress) -> list[Shape]:
        """Return the matrix as it is and each with fewer lines, laid out."""
        return list(shapes_of(self.fitting, progress))

    def laid_out(self, size: Size, progress: Progress) -> Layout | None:
        """Return a layout of one size; None where it does not hold the keys."""
        fitting = self.fitting
        return lay_out(fitting.plan, *size, drawn=fitting.drawn, progress=progress)

    def shapes_to_write(self, progress: Progress) -> list[Shape]:
        """Return the same; the first is laid out anew if that is no worse than as it is wired."""
        shapes = self.shapes(progress)
        wired = shapes[0].layout if self.fitting.wired else None
        again = self.laid_out(shapes[0].size, progress) if wired else None
        if wired and again and again.cost <= wired.cost:
            shapes[0] = Shape("as wired", again)
        return shapes

    def choice(self, profiles: Sequence[Profile], shapes: Sequence[Shape]) -> Choice | None:
        """Return which matrix to take on each of these controllers; None with too few pins."""
        return choice_on(profiles, shapes, self.design.keyboard.wiring.drive)

    def candidates(self, shapes: Sequence[Shape]) -> list[Candidate]:
        """Return how the keyboard fits on every controller, the file's own profiles first."""
        own = (profile for profile in self.profiles if profile.path)
        named = {profile.name: profile for profile in self.profiles if not profile.path}
        builtin = (
            named.get(name) or with_pins_for(profile, self.design.keyboard)
            for name in builtin_names()
            if (profile := builtin_profile(name))
        )
        lines = {shape.size: self.lines(shape.layout) for shape in shapes}

        def found_on(profile: Profile) -> Candidate:
            choice = self.choice([profile], shapes)
            mounted = choice and self._mounted(profile, lines[choice.shape.size])
            return candidate(profile, shapes, choice, check_mounted(mounted) if mounted else ())

        return [found_on(profile) for profile in (*own, *builtin)]

    def lines(self, layout: Layout) -> list[NewLine]:
        """Return the wires of a layout, without pins."""
        spoken_of = {place.text for one in self.design.allowances for place in one.places}
        return new_lines(self.design.keyboard, layout, spoken_of)

    def _mounted(self, profile: Profile, lines: Sequence[NewLine]) -> Mounted | None:
        """Return the keyboard with these wires on a controller; None if that has too few pins."""
        bare = without_components(self.design.keyboard)
        keyboard = wired_anew(bare, lines, self.diode.name)
        placed = with_pins(lines, [profile], keyboard, {})
        if placed is None:
            return None
        place = keyboard.plate.span
        pins = {line.name: Word(line.pins[0], place) for line in placed}
        return Mounted(keyboard, Mounting(Word(profile.name, place), pins), profile, self.diode)

    def placed(self, layout: Layout, profiles: Sequence[Profile]) -> list[NewLine] | None:
        """Return the wires of a layout with pins of some controllers; None if one has too few."""
        lines = self.lines(layout)
        return with_pins(lines, profiles, self.design.keyboard, self.design.pins)

    def sure_diode(self, lines: Sequence[NewLine], profiles: Sequence[Profile]) -> str:
        """Return the diode to write: one with which keys read low for sure on each controller."""
        for profile in profiles:
            mounted = self._mounted(profile, lines)
            taken = diode_for(mounted, self.diode) if mounted else self.diode
            if taken is not self.diode:
                return taken.name
        return self.diode.name

    def block(self, lines: Sequence[NewLine], diode: str) -> str:
        """Return a block `wiring` with some wires."""
        return block_text(lines, diode, self.fitting.place)

    def text(self, lines: Sequence[NewLine], diode: str, controller: str | None) -> str:
        """Return the file's text with some wires: in its own block, or in a new one.

        `controller` is written into the block `keyboard`, or with a new one, if it is given.
        """
        source = self.design.source
        text = self._with_lines(lines, diode)
        if controller is None:
            return text
        return with_controller(SourceText(source.path, text), controller, self.new_name)

    @property
    def new_name(self) -> str:
        """What the keyboard is called where the file does not say: as the file is."""
        stem = "".join(one for one in Path(self.design.source.path).stem if one.isprintable())
        return stem.strip("<> ")[:MOST_NAME] or "keyboard"

    def _with_lines(self, lines: Sequence[NewLine], diode: str) -> str:
        source, wiring = self.design.source, self.design.keyboard.wiring
        if not wiring.is_given:
            return with_block(source, self.block(lines, diode))
        if wiring.lines:
            return with_lines(source, lines, self.fitting.place)
        more = lines_text(lines, self.fitting.place)
        if wiring.diodes is None and self.design.keyboard.wants_diodes:
            more = [diodes_text(diode, wiring.drive), *more]
        return filled_block(source, more)


def fit_of(examined: Examined) -> Fit:
    """Return a sound file as something to be fitted."""
    assert examined.design
    profiles = tuple(with_pins_kept(one) for one in examined.mounted)
    diodes = [one.diode for one in examined.mounted if one.diode]
    return Fit(examined.design, diodes[0] if diodes else usual_diode(), profiles)
