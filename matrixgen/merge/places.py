"""What has a place on a plate: without a name or an order, it is known by that place."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence

from matrixgen.merge.three_way import Id, place_behind, replaced
from matrixgen.source.parts import NAMED_PLACES, PLACES
from matrixgen.source.statements import STATEMENTS
from matrixgen.source.tree import Statement


def place_ids(base: Sequence[Statement], side: Sequence[Statement]) -> list[Id]:
    """Return a name for each place of a side, of whose base all statements are given.

    What may be there once is called by its rule, and what has a name by that. Of the others, it is
    the words of the base's that it is, be it moved: where as many went as came between two that
    stayed, these are the same ones. A new one has its own words.
    """
    found: dict[int, Id] = {}
    for rule in PLACES:
        if STATEMENTS[rule].often == "once":
            found |= {place: (rule,) for place, one in enumerate(side) if one.rule == rule}
            continue
        if rule in NAMED_PLACES:
            here = ((place, one) for place, one in enumerate(side) if one.rule == rule)
            found |= {place: (rule, one.words[1]) for place, one in here}
            continue
        was = _named([one for one in base if one.rule == rule])
        places = [place for place, one in enumerate(side) if one.rule == rule]
        names = _named([side[place] for place in places])
        moved = {new: old for old, new in replaced(was, names)}
        found |= {place: moved.get(name, name) for place, name in zip(places, names, strict=True)}
    return [found[place] for place in sorted(found)]


def _named(statements: Sequence[Statement]) -> list[Id]:
    """Return the words of each statement, and how many the same stand before it."""
    seen: Counter[tuple[str, ...]] = Counter()
    names: list[Id] = []
    for statement in statements:
        words = statement.words
        names.append((*words, seen[words]))
        seen[words] += 1
    return names


def with_places(
    order: Sequence[Id], sides: tuple[Sequence[Id], Sequence[Id]], kept: Collection[Id]
) -> list[Id]:
    """Return names in order with the places in `kept` among them, each behind what it followed.

    `sides` are ours and theirs; what both put behind one line stands in this order.
    """
    result = list(order)
    for side in sides:
        added = [one for one in side if one in kept and one not in result]
        new = set(kept) - set(side) - set(order)
        for one in added:
            place = place_behind(one, side, result)
            while result[place : place + 1] and result[place] in new:
                place += 1
            result.insert(place, one)
    return result
