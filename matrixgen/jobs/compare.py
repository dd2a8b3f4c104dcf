"""Comparing two files, each read and checked as any other."""

from __future__ import annotations

from functools import cached_property

from matrixgen.boards import Mounted
from matrixgen.circuit.settling import Settling
from matrixgen.compare import KINDS, Change, Comparison, compare
from matrixgen.compare.facts import Facts, facts_of
from matrixgen.jobs.compare_boards import of_boards
from matrixgen.jobs.examine import Examined
from matrixgen.model import Design, matrix_of
from matrixgen.of_same import OfSame
from matrixgen.record import Record, changed
from matrixgen.source.tree_reader import comments_of


class Compared(Record):
    """A side of comparisons that reads, and what each of them asks of it."""

    examined: Examined

    @property
    def design(self) -> Design:
        """What the side says."""
        assert self.examined.design
        return self.examined.design

    @cached_property
    def facts(self) -> Facts:
        """The same in facts."""
        return facts_of(self.design)

    @cached_property
    def waits(self) -> dict[str, int]:
        """How long lines settle on each controller."""
        return _waits(self.examined)

    @cached_property
    def comments(self) -> object:
        """Its comments, wherever they stand."""
        return comments_of(self.design.source.text)


def compared(old: Examined, new: Examined) -> Comparison:
    """Return what changed from one file that reads to another, see `compared_sides`."""
    return compared_sides(Compared(old), Compared(new))


def compared_sides(old: Compared, new: Compared) -> Comparison:
    """Return what changed from one file that reads to another.

    That is what they say, what is in the profiles and the file of a diode that they name, comments
    and ways to write.
    """
    found = compare(old.design, new.design, (old.waits, new.waits), (old.facts, new.facts))
    changes = [*found.changes, *of_boards(old.examined, new.examined)]
    said = _said_otherwise(old, new, bool(changes))
    changes.sort(key=lambda change: KINDS.index(change.kind))
    return changed(found, changes=(*changes, *said))


def _waits(examined: Examined) -> dict[str, int]:
    """Return how long lines settle on each controller, where the file leaves that to us."""
    if examined.design is None or examined.design.keyboard.wiring.settle_us is not None:
        return {}
    return {mounted.controller.text: _wait(mounted) for mounted in examined.mounted}


_waits_of = OfSame[int]()


def _wait(mounted: Mounted) -> int:
    """Return how long lines settle: a layer says nothing of that."""
    keyboard = mounted.keyboard
    pins = tuple((line, pin.text) for line, pin in mounted.mounting.pins.items())
    of = (keyboard.plate, keyboard.wiring, mounted.profile, mounted.diode)
    return _waits_of.made(lambda: Settling(mounted, matrix_of(keyboard)).wait_us, *of, also=pins)


def _said_otherwise(old: Compared, new: Compared, is_changed: bool) -> list[Change]:
    """Return a change of comments, or where nothing else changed, of blanks and words."""
    if old.comments != new.comments:
        text = "comments differ"
        return [Change(kind="cosmetic", slug="comments", text=text, thing="comment")]
    if is_changed or old.design.source.text == new.design.source.text:
        return []
    text = "same meaning, written differently: spacing, or other words for it"
    return [Change(kind="cosmetic", slug="written-otherwise", text=text, thing="way to write it")]
