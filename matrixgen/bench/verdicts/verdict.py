"""The verdict on a board: what explains all that was seen, likely things first."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.bench.faults.explanation import Explanation
from matrixgen.bench.faults.observe import Seen
from matrixgen.bench.faults.suspects import Suspects
from matrixgen.bench.questions.questions import World
from matrixgen.bench.verdicts.diagnose import explanations
from matrixgen.bench.verdicts.several_faults import put_together
from matrixgen.circuit.bits import bits_of
from matrixgen.record import Record, changed


class Verdict(Record, kw_only=True):
    """What explains what was seen.

    `causes` are all explanations of one or two faults. Where there is none, it has one of more
    faults, and `unexplained` the keys that even those leave, or `at rest`; it is not said then that
    there is no other.
    """

    causes: tuple[Explanation, ...]
    unexplained: tuple[str, ...] = ()

    @property
    def is_whole(self) -> bool:
        """Whether nothing is wrong with what was pressed."""
        return not self.unexplained and any(cause.size == 0 for cause in self.causes)


def narrowed(verdict: Verdict, asked: Iterable[World], left: Iterable[World]) -> Verdict:
    """Return a verdict with what is left of the worlds that questions were asked about.

    Explanations that they were not about stay.
    """
    kept: dict[Explanation, list[World]] = {}
    for world in left:
        kept.setdefault(world.explanation, []).append(world)
    gone = {world.explanation for world in asked} - kept.keys()
    causes = (
        _of_worlds(cause, kept[cause]) if cause in kept else cause
        for cause in verdict.causes
        if cause not in gone
    )
    return changed(verdict, causes=tuple(causes))


def _of_worlds(cause: Explanation, worlds: list[World]) -> Explanation:
    """Return an explanation with the faults that it may still be."""
    effects = (
        changed(effect, faults=tuple(dict.fromkeys(world.faults[number] for world in worlds)))
        for number, effect in enumerate(cause.effects)
    )
    return Explanation(tuple(effects), cause.exchanges)


def verdict_of(suspects: Suspects, seen: Seen) -> Verdict:
    """Return the verdict on a board."""
    found = explanations(suspects, seen)
    if found:
        return Verdict(causes=tuple(found))
    several = put_together(suspects, seen)
    names = (*suspects.board.keys, "at rest")
    return Verdict(
        causes=tuple(one.explanation for one in several),
        unexplained=tuple(names[key] for key in bits_of(several[0].left)),
    )
