"""Comparing two files, each read and checked as any other."""

from __future__ import annotations

from matrixgen.boards import Mounted
from matrixgen.circuit.settling import Settling
from matrixgen.compare import Change, Comparison, compare
from matrixgen.jobs.examine import Examined
from matrixgen.model import matrix_of
from matrixgen.record import changed
from matrixgen.source.tree import comments_of


def compared(old: Examined, new: Examined) -> Comparison:
    """Return what changed from one sound file to another, comments and ways to write included."""
    assert old.design and new.design
    found = compare(old.design, new.design, (_waits(old), _waits(new)))
    said = _said_otherwise(old.design.source.text, new.design.source.text, bool(found.changes))
    return changed(found, changes=(*found.changes, *said))


def _waits(examined: Examined) -> dict[str, int]:
    """Return how long lines settle on each controller, where the file leaves that to us."""
    if examined.design is None or examined.design.keyboard.wiring.settle_us is not None:
        return {}
    return {mounted.controller.text: _wait(mounted) for mounted in examined.mounted}


def _wait(mounted: Mounted) -> int:
    return Settling(mounted, matrix_of(mounted.keyboard)).wait_us


def _said_otherwise(old: str, new: str, is_changed: bool) -> list[Change]:
    """Return a change of comments, or where nothing else changed, of blanks and words."""
    if comments_of(old) != comments_of(new):
        text = "comments differ"
        return [Change(kind="cosmetic", slug="comments", text=text, thing="comment")]
    if old == new or is_changed:
        return []
    text = "same meaning, written differently: spacing, or other words for it"
    return [Change(kind="cosmetic", slug="written-otherwise", text=text, thing="way to write it")]
