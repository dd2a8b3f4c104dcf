"""The verdict on a board: what explains all that was seen, likely things first."""

from __future__ import annotations

from matrixgen.bench.bits import mask
from matrixgen.bench.diagnose import explanations
from matrixgen.bench.exchanges import one_swap
from matrixgen.bench.explanation import Explanation
from matrixgen.bench.observe import Exchange, Seen
from matrixgen.bench.several_faults import put_together
from matrixgen.bench.suspects import Suspects
from matrixgen.record import Record


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
        """Whether nothing is wrong."""
        return not self.unexplained and any(cause.size == 0 for cause in self.causes)


def verdict_of(suspects: Suspects, seen: Seen) -> Verdict:
    """Return the verdict on a board."""
    found = explanations(suspects, seen)
    if found:
        return Verdict(causes=tuple(found))
    several = put_together(suspects, seen)
    if not several[0].left:
        return Verdict(causes=tuple(dict.fromkeys(one.explanation for one in several)))
    many, left = several[0].explanation, several[0].left
    swap = _exchanged(suspects, seen, left)
    if swap:
        return Verdict(causes=(Explanation(many.effects, (swap,)),))
    names = (*suspects.board.keys, "at rest")
    return Verdict(causes=(many,), unexplained=tuple(names[key] for key in left))


def _exchanged(suspects: Suspects, seen: Seen, left: tuple[int, ...]) -> Exchange | None:
    """Return the two keys that are left, if each shows what the other should."""
    if len(left) != 2 or left[1] >= len(suspects.board.keys):
        return None
    return next(one_swap(seen, mask(left), suspects.healthy, {}), None)
