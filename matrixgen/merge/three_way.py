"""Three versions of one thing: which value is meant, and in which order."""

from __future__ import annotations

from collections.abc import Collection, Hashable, Iterator, Sequence
from difflib import SequenceMatcher
from typing import Literal, TypeVar

from matrixgen.record import Record

Which = Literal["ours", "theirs"]
"""The side that is shown where both changed the same thing."""

Id = Hashable
T = TypeVar("T")
Three = tuple[T | None, T | None, T | None]
"""Base, ours and theirs, None where one has nothing of the kind."""


class Resolution(Record):
    """Whose value it is: `ours`, `theirs`, and whether both sides changed it differently."""

    side: Which
    is_clash: bool


def choose(versions: Sequence[object], prefer: Which) -> Resolution:
    """Return which side's value is meant, of base, ours and theirs: that of whoever changed it."""
    base, ours, theirs = versions
    if ours == theirs or theirs == base:
        return Resolution("ours", False)
    return Resolution("theirs", False) if ours == base else Resolution(prefer, True)


def chosen(base: T, ours: T, theirs: T, prefer: Which) -> T:
    """Return the value that is meant."""
    return ours if choose((base, ours, theirs), prefer).side == "ours" else theirs


class Order(Record):
    """Names in the order of both sides, and those whose place they disagree on."""

    ids: tuple[Id, ...]
    clashes: tuple[Id, ...]


def in_order(
    versions: tuple[Sequence[Id], Sequence[Id], Sequence[Id]],
    kept: Collection[Id],
    prefer: Which,
    *,
    strict: bool,
) -> Order:
    """Return the names in `kept` in an order that both sides agree with.

    `versions` are base, ours and theirs. New ones of theirs stand after what they stood after.
    Where both sides added something at one place they disagree if `strict`, and else ours is first.
    """
    base, ours, theirs = versions
    side, moved = _frame(base, ours, theirs, prefer)
    frame, other = (ours, theirs) if side == "ours" else (theirs, ours)
    return _Weaver(base, frame, other, kept).woven(
        moved if strict else (), strict=strict, keep_frame=side == prefer
    )


class _Weaver:
    """Puts the names of the other side between those of the frame."""

    def __init__(
        self, base: Sequence[Id], frame: Sequence[Id], other: Sequence[Id], kept: Collection[Id]
    ) -> None:
        self._fresh = (set(frame) - set(base) - set(other)) & set(kept)
        self._kept = set(kept)
        self._other = other
        self._added = [one for one in other if one in kept and one not in set(frame)]
        self._result = list(frame)  # what goes still tells where something stands

    def woven(self, clashes: Sequence[Id], *, strict: bool, keep_frame: bool) -> Order:
        """Return the order; where both added something, `keep_frame` says whose is shown."""
        found = list(clashes)
        for one in self._added:
            place = end = place_behind(one, self._other, self._result)
            while end < len(self._result) and self._result[end] in self._fresh:
                end += 1
            if end > place and strict:
                found += [*self._result[place:end], one]
                if keep_frame:
                    continue
                del self._result[place:end]
                end = place
            self._result.insert(end, one)
        left = (one for one in self._result if one in self._kept)
        return Order(tuple(left), tuple(dict.fromkeys(found)))


def place_behind(one: Id, side: Sequence[Id], result: Sequence[Id]) -> int:
    """Return the place in a result after the nearest name that stands before one on its side."""
    before = reversed(side[: side.index(one)])
    near = next((name for name in before if name in result), None)
    return 0 if near is None else result.index(near) + 1


def replaced(before: Sequence[T], after: Sequence[T]) -> Iterator[tuple[T, T]]:
    """Yield what stands in place of each other: as many went as came between two that stayed."""
    here, there = set(before), set(after)
    if here == there:
        return
    for what, a, b, c, d in SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        if what == "replace" and b - a == d - c:
            pairs = zip(before[a:b], after[c:d], strict=True)
            yield from ((old, new) for old, new in pairs if old not in there and new not in here)


def _frame(
    base: Sequence[Id], ours: Sequence[Id], theirs: Sequence[Id], prefer: Which
) -> tuple[Which, tuple[Id, ...]]:
    """Return whose order is the one that was changed, and the names that both moved."""
    if _only(ours, theirs) == _only(theirs, ours):
        return "ours", ()
    old = set(base) & set(ours) & set(theirs)
    was = [one for one in base if one in old]
    is_ours = [one for one in ours if one in old]
    is_theirs = [one for one in theirs if one in old]
    if is_ours == was and is_theirs != was:
        return "theirs", ()
    if is_theirs == was and is_ours != was:
        return "ours", ()
    pairs = zip(_only(ours, theirs), _only(theirs, ours), strict=True)
    return prefer, tuple(one for one, two in pairs if one != two)


def _only(some: Sequence[Id], others: Sequence[Id]) -> list[Id]:
    return [one for one in some if one in set(others)]
