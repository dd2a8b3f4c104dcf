"""A file, read: its text, its tree, its keyboard."""

from __future__ import annotations

import gc
from pathlib import Path
from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Diagnostic, in_file_order
from matrixgen.model.keyboard import BASE, Keyboard
from matrixgen.model.span import SourceText
from matrixgen.source.actions import Cells, named_actions
from matrixgen.source.boot_loader import boot_loader_of
from matrixgen.source.keyboard import keyboard_settings
from matrixgen.source.layers import layers_of
from matrixgen.source.limits import LIMITS, Limits
from matrixgen.source.names import Names
from matrixgen.source.parser import parse
from matrixgen.source.plate import plate_lines
from matrixgen.source.read import read_source
from matrixgen.source.reading import Reading, tokens, trees
from matrixgen.source.statements import blocks_once
from matrixgen.source.wiring import wiring_of

if TYPE_CHECKING:
    from matrixgen.source.parser import Node


def read_keyboard(
    path: str | Path, text: str | None = None, limits: Limits = LIMITS
) -> tuple[Keyboard | None, list[Diagnostic]]:
    """Return the keyboard that a .keys file describes, and every finding, in file order.

    With `text`, that is read instead, as if it stood in `path`. The keyboard is None exactly where
    a finding is an error. Nothing is raised for a user's mistake. The file's `allow` is not heeded
    here: it speaks of warnings, and this room has none.
    """
    source = read_source(str(path), text, limits)
    if isinstance(source, Diagnostic):
        return None, [source]
    return keyboard_of(source, limits)


def keyboard_of(
    source: SourceText, limits: Limits = LIMITS
) -> tuple[Keyboard | None, list[Diagnostic]]:
    """Return the keyboard of a text that is already read; see `read_keyboard`."""
    collects = gc.isenabled()
    gc.disable()  # a tree has no circles; looking for some makes a key dearer the more there are
    try:
        return _keyboard_of(source, limits)
    finally:
        if collects:
            gc.enable()


def _keyboard_of(source: SourceText, limits: Limits) -> tuple[Keyboard | None, list[Diagnostic]]:
    parsed = parse(source.text, limits.syntax_mistakes)
    reading = Reading(source, limits, parsed.mistakes)
    if parsed.mistakes:
        from matrixgen.source.syntax import report_mistakes

        report_mistakes(reading, parsed.mistakes)
    keyboard = _keyboard(reading, parsed.tree)
    findings = in_file_order(reading.findings)
    return (None if any(found.is_error for found in findings) else keyboard), findings


def _keyboard(reading: Reading, file: Node) -> Keyboard | None:
    """Read every block that is there; return the keyboard if all that are needed are."""
    blocks = blocks_once(reading, file)
    keys = Names(reading, "key", "give the second key a tag after a dot, as in `Space.2`")
    head = blocks.get("keyboard")
    settings = keyboard_settings(reading, head) if head else None
    plate = plate_lines(reading, blocks["plate"], keys) if "plate" in blocks else ()
    keys.are_all_lost = not plate
    controllers = settings.controllers if settings else ()
    boot_loader = boot_loader_of(reading, head, keys)
    wires = blocks.get("wiring")
    wiring = wiring_of(reading, wires, keys, controllers) if wires else None
    cells = Cells(reading, blocks.get("actions"))
    actions = named_actions(reading, blocks.get("actions"), _layer_names(file), cells)
    layers = layers_of(reading, file, plate, keys, cells)
    if not (settings and controllers and plate and wiring):
        return None
    return Keyboard(
        settings.identity,
        controllers[0],
        settings.debounce_ms,
        settings.allowed,
        plate,
        wiring,
        actions,
        layers,
        reading.source,
        reading.whole(file),
        boot_loader,
        controllers,
    )


def _layer_names(file: Node) -> list[str]:
    """Return the names of all layers, the base layer's even if the file does not name it."""
    named = (str(tokens(block)[0]) for block in trees(file) if block.data == "layer")
    return [BASE, *named]
