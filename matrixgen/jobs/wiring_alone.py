"""A file of which only the wiring is needed: what is wrong with its layers is no matter."""

from __future__ import annotations

import re
from pathlib import Path

from matrixgen.jobs.examine import Examined, examine, read_and_mounted
from matrixgen.model import SourceText
from matrixgen.record import changed
from matrixgen.source.limits import LIMITS
from matrixgen.source.load import load_text

_OPENS = re.compile(r"[^\s#]")
"""How a line begins that opens a block."""

_NEEDED = ("keyboard", "plate", "wiring")


def examine_wiring(path: str) -> Examined:
    """Return a file by every rule, or where it does not read as a whole, what its wiring says.

    Then the other blocks are left out, and no rule is asked: `design` is there if the rest reads.
    """
    examined = examine(path)
    if examined.design:
        return examined
    source = load_text(path, None, LIMITS)
    if not isinstance(source, SourceText):
        return examined
    alone = read_and_mounted(path, _alone(source), Path(path).parent)
    if alone.design is None:
        return examined
    design = changed(alone.design, source=source)
    return changed(alone, design=design, text=source.text)


def _alone(source: SourceText) -> str:
    """Return a text in which all lines of other blocks are empty, so that the rest stays put."""
    kept, is_needed = [], True
    for line in source.lines:
        if _OPENS.match(line):
            is_needed = line.split()[0] in _NEEDED
        kept.append(line if is_needed else "")
    return "\n".join(kept)
