"""A file of which only the wiring is needed: what is wrong with its layers is no matter."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from matrixgen.jobs.examine import Examined, examine, examine_text
from matrixgen.model import Diagnostic, SourceText
from matrixgen.record import changed
from matrixgen.rules import MOUNTED_RULES, RULES
from matrixgen.rules.context import Context, MountedContext, Rule
from matrixgen.rules.unfinished import key_without_layer, keyboard_without_name
from matrixgen.source.limits import LIMITS
from matrixgen.source.load import load_text

_OPENS = re.compile(r"[^\s#]")
"""How a line begins that opens a block."""

_NEEDED = ("keyboard", "plate", "wiring")

_ROOMS = ("diodes", "pins", "wiring")

_NO_MATTER = {key_without_layer.PROBLEM.slug, keyboard_without_name.PROBLEM.slug}


def examine_wiring(path: str) -> Examined:
    """Return a file by every rule, or where it does not read as a whole, without other blocks.

    What sets it apart from the whole file is its text: `design` is there if the rest reads.
    """
    examined = examine(path)
    if examined.design:
        return examined
    source = load_text(path, None, LIMITS)
    if not isinstance(source, SourceText):
        return examined
    alone = examine_text(path, _alone(source), Path(path).parent)
    if alone.design is None:
        return examined
    design = changed(alone.design, source=source)
    return changed(alone, design=design, text=source.text)


def wiring_errors(examined: Examined) -> list[Diagnostic]:
    """Return what has to be right before a board can be compared with a file: its wiring.

    That is what the rules in the folders below say, and a wire without a pin.
    """
    errors = [found for found in examined.errors if found.slug in _slugs()]
    still_open = (point.finding for point in examined.open_points)
    return [*errors, *(found for found in still_open if found.slug not in _NO_MATTER)]


@cache
def _slugs() -> frozenset[str]:
    """Return what the rules in the folders find: each rule is a module."""
    rules: tuple[Rule[Context] | Rule[MountedContext], ...] = (*RULES, *MOUNTED_RULES)
    return frozenset(one.PROBLEM.slug for one in rules if one.__name__.split(".")[-2] in _ROOMS)


def _alone(source: SourceText) -> str:
    """Return a text in which all lines of other blocks are empty, so that the rest stays put."""
    kept, is_needed = [], True
    for line in source.lines:
        if _OPENS.match(line):
            is_needed = line.split()[0] in _NEEDED
        kept.append(line if is_needed else "")
    return "\n".join(kept)
