"""Which thing of an old file is which of a new one: the best pairs of names first."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from matrixgen.record import Record

Score = Callable[[str, str], float]


class Match(Record):
    """New names by old ones, of all that both files have; and the old names of what is guessed."""

    new_of: Mapping[str, str]
    guessed: frozenset[str] = frozenset()

    def come(self, names: Iterable[str]) -> tuple[str, ...]:
        """Return those of a new file's names that nothing of the old one has become."""
        return tuple(left(names, self.new_of.values()))

    @property
    def renames(self) -> dict[str, str]:
        """Those whose name differs."""
        return {old: new for old, new in self.new_of.items() if old != new}


def greedy_matching(old: Sequence[str], new: Sequence[str], score: Score, least: float) -> Match:
    """Return pairs, the best first, each name once; of equal ones the first, said to be guessed."""
    scored = [(-score(a, b), n, m, a, b) for n, a in enumerate(old) for m, b in enumerate(new)]
    pairs = sorted(one for one in scored if -one[0] >= least)
    found: dict[str, str] = {}
    taken: set[str] = set()
    guessed: set[str] = set()
    for place, (value, _, _, a, b) in enumerate(pairs):
        if a in found or b in taken:
            continue
        rivals = (
            one
            for one in pairs[place + 1 :]
            if one[0] == value
            and ((one[3] == a and one[4] not in taken) or (one[4] == b and one[3] not in found))
        )
        if next(rivals, None):
            guessed.add(a)
        found[a] = b
        taken.add(b)
    return Match(found, frozenset(guessed))


def joined(sure: Mapping[str, str], rest: Match) -> Match:
    """Return pairs that are certain together with others."""
    return Match({**sure, **rest.new_of}, rest.guessed)


def left(names: Iterable[str], taken: Iterable[str]) -> list[str]:
    """Return the names that are not taken."""
    gone = set(taken)
    return [name for name in names if name not in gone]
