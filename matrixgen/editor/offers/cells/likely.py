"""All reasons together: the votes of each word are added up."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable

from matrixgen.editor.offers.cells import (
    as_the_rest,
    by_name,
    in_phrases,
    in_runs,
    missing,
    of_groups,
)
from matrixgen.editor.offers.cells.around import CellsAround, Votes
from matrixgen.source.blocks.pictures import SEE_THROUGH

WAITED_FOR, NEXT = 0.0, 1.0
"""The rank of what the file is only waiting for, and of what probably comes next."""

VOTES = 12.0
"""So many votes make a cell as likely as what the file is only waiting for."""

REASONS: tuple[Callable[[CellsAround], Votes], ...] = (
    in_runs.in_runs,
    in_runs.in_columns,
    as_the_rest.as_the_rest,
    of_groups.other_halves,
    of_groups.rest_of_groups,
    of_groups.where_arrows_fit,
    by_name.own_name,
    by_name.ways,
    by_name.signs,
    by_name.initial,
    by_name.commands,
    missing.nowhere,
    missing.taken_away,
    missing.displaced,
    missing.often_with_ctrl,
)
"""Why a cell may be one that this layer does not have yet."""

ALSO_THERE = (in_runs.like_its_neighbours, in_phrases.in_phrases)
"""Why it may be one, whether the layer has it or not."""

IN_PHRASES = 0.2
"""What those reasons count inside of a phrase, where its words say more."""

THERE = 4.0
"""Votes that are taken from what a cell of the layer sends already."""


def likely(around: CellsAround) -> dict[str, float]:
    """Return what the cell may send, with its votes: a few words, or two hundred."""
    votes: defaultdict[str, float] = defaultdict(float)
    weight = IN_PHRASES if in_phrases.is_within(around) else 1
    for reason in REASONS:
        for sent, count in reason(around):
            votes[sent] += count * weight
    for sent in set(around.cells.values()):
        votes[sent] -= THERE
    for reason in ALSO_THERE:
        for sent, count in reason(around):
            votes[sent] += count
    return {sent: count for sent, count in votes.items() if sent and sent != SEE_THROUGH}


def rank_of(votes: float) -> float:
    """Return how votes for a cell compare with other kinds of words."""
    return NEXT - votes / VOTES
