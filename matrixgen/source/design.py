"""A text to a design: its tree, and every block that is there."""

from __future__ import annotations

import gc
from pathlib import Path
from typing import TYPE_CHECKING

from matrixgen.model.design import Design
from matrixgen.model.diagnostic import Diagnostic, in_file_order
from matrixgen.model.plate import Plate
from matrixgen.model.text import SourceText
from matrixgen.record import changed
from matrixgen.source.blocks.actions import named_actions, names_in
from matrixgen.source.blocks.components import NO_COMPONENTS, check_component_pins
from matrixgen.source.blocks.computer import computer_of
from matrixgen.source.blocks.given_once import blocks_once
from matrixgen.source.blocks.keyboard import Settings, settings_of, unsaid
from matrixgen.source.blocks.keys import Keys
from matrixgen.source.blocks.layers import layer_names, layers_of
from matrixgen.source.blocks.pins import check_pins, one_pin_each
from matrixgen.source.blocks.plate import without_stabiliser
from matrixgen.source.blocks.steps import Steps, knob_names
from matrixgen.source.conflicts import conflicts_in
from matrixgen.source.limits import LIMITS, Limits
from matrixgen.source.load import load_text
from matrixgen.source.names import KEY, Names
from matrixgen.source.parser import parse
from matrixgen.source.read_before import plate_once, wiring_once
from matrixgen.source.reporter import ReadingEnds, Reporter
from matrixgen.source.vocabulary import Vocabulary

if TYPE_CHECKING:
    from matrixgen.source.letters import Letters
    from matrixgen.source.syntax import Node


def read_design(
    path: str | Path, text: str | None = None, limits: Limits = LIMITS
) -> tuple[Design | None, list[Diagnostic]]:
    """Return what a .keys file describes, finished or not, and every finding, in file order.

    With `text`, that is read instead, as if it stood in `path`. The design is None exactly where a
    finding is an error. Nothing is raised for a user's mistake. The file's `allow` is not heeded
    here: rules and their warnings come later.
    """
    source = load_text(str(path), text, limits)
    if isinstance(source, Diagnostic):
        return None, [source]
    return design_of(source, limits)


def design_of(
    source: SourceText, limits: Limits = LIMITS
) -> tuple[Design | None, list[Diagnostic]]:
    """Return the design of a text that is already loaded; see `read_design`."""
    collects = gc.isenabled()
    gc.disable()  # a tree has no circles; looking for some makes a key dearer the more there are
    try:
        return _design_of(source, limits)
    finally:
        if collects:
            gc.enable()


def _design_of(source: SourceText, limits: Limits) -> tuple[Design | None, list[Diagnostic]]:
    conflicts = conflicts_in(source)
    if conflicts:
        return None, conflicts
    parsed = parse(source.text, limits.syntax_mistakes)
    reporter = Reporter(source, limits, parsed.mistakes)
    design = None
    try:
        if parsed.mistakes:
            from matrixgen.source.unreadable import report_mistakes

            report_mistakes(reporter, parsed.mistakes)
        design = _read(reporter, parsed.tree)
    except ReadingEnds:
        pass  # the last finding says so
    findings = in_file_order(reporter.findings)
    return (None if any(found.is_error for found in findings) else design), findings


def _read(reporter: Reporter, file: Node) -> Design:
    """Read every block that is there; where one is not, the design says nothing of it."""
    blocks = blocks_once(reporter, file)
    head = reporter.first_word()
    names = Names(reporter, KEY)
    computer, system, letters = computer_of(reporter, blocks.get("keyboard"))
    plate = _plate(reporter, blocks.get("plate"), names, letters)
    keys = Keys(reporter, names)
    if "plate" in blocks:
        bare = without_stabiliser(blocks["plate"], keys)
        plate = changed(plate, without_stabiliser=bare) if bare else plate
    settings, wires = Settings(unsaid(plate, head)), blocks.get("wiring")
    if "keyboard" in blocks:
        settings = settings_of(reporter, blocks["keyboard"], keys, settings.keyboard)
    layers = layer_names(file)
    wiring, pins, components = (
        wiring_once(reporter, wires, plate, keys, layers)
        if wires
        else (settings.keyboard.wiring, {}, NO_COMPONENTS)
    )
    steps = Steps(reporter, knob_names(plate, wiring))
    keys.steps = steps
    steps.check(names)
    check_pins(reporter, one_pin_each(pins), settings.controllers)
    check_component_pins(reporter, components, settings.controllers)
    names_of_actions = names_in(blocks.get("actions"))
    vocabulary = Vocabulary(reporter, names_of_actions, layers, letters)
    vocabulary.tap_hold = settings.tap_hold
    actions = named_actions(reporter, blocks.get("actions"), vocabulary)
    keyboard = changed(
        settings.keyboard,
        wiring=wiring,
        actions=actions,
        layers=layers_of(reporter, file, plate, keys, vocabulary, settings.keyboard.together_ms),
        computer=computer,
        system=system,
    )
    return Design(
        keyboard=keyboard,
        controllers=settings.controllers,
        pins=pins,
        component_pins=components.pins,
        allowances=settings.allowances,
        source=reporter.source,
        head=head,
    )


def _plate(reporter: Reporter, block: Node | None, names: Names, letters: Letters) -> Plate:
    """Return the plate; report that there is none, unless a broken line may have opened it."""
    if block is not None:
        plate = plate_once(reporter, block, names, letters)
        names.are_all_lost = not plate.lines
        return plate
    names.are_all_lost = True
    if reporter.is_whole:
        reporter.report(
            "missing-block",
            reporter.first_word(),
            "the file has no block `plate`",
            help="`matrixgen new NAME` writes a file with one; a plate alone is enough to plan",
        )
    return Plate((), (), reporter.first_word())
