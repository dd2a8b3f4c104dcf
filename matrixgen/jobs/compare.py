"""Comparing two files, each read and checked as any other."""

from __future__ import annotations

from matrixgen.boards import Mounted
from matrixgen.circuit.settling import Settling
from matrixgen.compare import KINDS, Change, Comparison, compare
from matrixgen.jobs.compare_boards import of_boards
from matrixgen.jobs.examine import Examined
from matrixgen.model import matrix_of
from matrixgen.record import changed
from matrixgen.source.tree import comments_of


def compared(old: Examined, new: Examined) -> Comparison:
    """Return what changed from one file that reads to another.

    That is what they say, what is in the profiles and the file of a diode that they name, comments
    and ways to write.
    """
    assert old.design and new.design
    found = compare(old.design, new.design, (_waits(old), _waits(new)))
    changes = [*found.changes, *of_boards(old, new)]
    said = _said_otherwise(old.design.source.text, new.design.source.text, bool(changes))
    changes.sort(key=lambda change: KINDS.index(change.kind))
    return changed(found, changes=(*changes, *said))


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
