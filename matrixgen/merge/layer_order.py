"""Which layers lie in an order that a merge chose: it is reported, as it decides which one wins."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from matrixgen.merge.context import Entry, MergeContext
from matrixgen.merge.three_way import choose
from matrixgen.model.layers import BASE

LayerPlaces = Mapping[str, int]
"""The place of each layer of a file: of two, the one with the greater place is the higher one."""


def layers_put_in_order(context: MergeContext, merged: Sequence[Entry]) -> tuple[str, ...]:
    """Return the layers whose order no side asked for, the highest first; mostly there are none."""
    sides = [_places([*side.blocks] if side else []) for side in context.sides]
    result = _places([entry.block for entry in merged])
    found = {name for pair in _undecided(sides, list(result)) for name in pair}
    return tuple(name for name in reversed(result) if name in found)


def _places(blocks: Sequence[object]) -> dict[str, int]:
    names = dict.fromkeys(str(id[1]) for id in blocks if isinstance(id, tuple) and id[0] == "layer")
    return {name: place for place, name in enumerate(names) if name != BASE}


def _undecided(sides: Sequence[LayerPlaces], merged: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Yield the pairs that lie as no side has them, nor both by a layer between the two."""
    decided: set[tuple[int, int]] = set()
    for distance in range(1, len(merged)):
        for low in range(len(merged) - distance):
            high = low + distance
            wanted = _wanted(sides, merged[low], merged[high])
            if wanted is None:
                between = range(low + 1, high)
                wanted = any({(low, one), (one, high)} <= decided for one in between)
            if wanted:
                decided.add((low, high))
            else:
                yield merged[low], merged[high]


def _wanted(sides: Sequence[LayerPlaces], lower: str, higher: str) -> bool | None:
    """Whether one layer is to be below another; None where no side says, or both otherwise."""
    base, ours, theirs = (_is_below(side, lower, higher) for side in sides)
    if ours is None or theirs is None:
        return theirs if ours is None else ours
    choice = choose((base, ours, theirs), "ours")
    return None if choice.is_clash else ours if choice.side == "ours" else theirs


def _is_below(side: LayerPlaces, one: str, other: str) -> bool | None:
    """Whether a layer is below another; None where a file does not have both."""
    return side[one] < side[other] if one in side and other in side else None
