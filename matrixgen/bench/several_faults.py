"""More faults than two at once: each part of what was seen explained by itself.

Faults that have no line in common only add up, so that the one which explains most is put in first,
and another with it, until all is explained. It is a way to explain it, not every one.
"""

from __future__ import annotations

from matrixgen.bench.diagnose import Explanation
from matrixgen.bench.observe import Seen, netlist_with
from matrixgen.bench.suspects import Suspect, Suspects, bits, mask

MOST_TRIED = 30
"""Suspects that are tried at each step, the most promising ones."""

MOST_FAULTS = 40
"""Faults that are put together at most."""


def put_together(suspects: Suspects, seen: Seen) -> tuple[Explanation, tuple[int, ...]]:
    """Return faults that together explain what they can, and the keys that are left unexplained.

    Where the state at rest is left, the keys are followed by their number.
    """
    ways = [_put_together(suspects, seen, careful=careful) for careful in (True, False)]
    parts, left = min(ways, key=lambda way: (way[1].bit_count(), len(way[0])))
    found = Explanation(tuple(one.effect for one in parts))
    return found, tuple(bit.bit_length() - 1 for bit in bits(left))


def _put_together(suspects: Suspects, seen: Seen, *, careful: bool) -> tuple[list[Suspect], int]:
    """Return faults and what they leave; `careful` prefers those that hide nothing seen."""
    parts: list[Suspect] = []
    left = wrong_with(suspects, seen, parts)
    while left and len(parts) < MOST_FAULTS:
        tried = [
            (wrong_with(suspects, seen, [*parts, one]), one)
            for one in _promising(suspects, seen, left)
        ]
        better = [pair for pair in tried if pair[0].bit_count() < left.bit_count()]
        if not better:
            break
        left, best = min(better, key=lambda pair: _worth(seen, *pair)[0 if careful else 1 :])
        parts.append(best)
    return _needed(suspects, seen, parts, left), left


def _worth(seen: Seen, left: int, one: Suspect) -> tuple[bool, int, int]:
    """Return a key by which better suspects come first: what they show is all seen, little is left.

    One that shows something else, as a broken wire where a key beyond it is seen, hides what else
    is wrong there.
    """
    hides = any(key in seen.keys and seen.keys[key] != pairs for key, pairs in one.looks.items())
    return hides, left.bit_count(), one.effect.rarity


def wrong_with(suspects: Suspects, seen: Seen, parts: list[Suspect]) -> int:
    """Return the keys that do not look as seen with some faults, and whether the rest does not."""
    netlist = netlist_with(suspects.board, *(one.effect for one in parts))
    wrong = mask(key for key, pairs in seen.keys.items() if netlist.pressed(key) != pairs)
    return wrong | (suspects.at_rest if netlist.at_rest() != seen.rest else 0)


def _needed(suspects: Suspects, seen: Seen, parts: list[Suspect], left: int) -> list[Suspect]:
    """Return some faults without those that a later one made needless."""
    for part in parts:
        others = [one for one in parts if one is not part]
        if not wrong_with(suspects, seen, others) & ~left:
            return _needed(suspects, seen, others, left)
    return parts


def _promising(suspects: Suspects, seen: Seen, left: int) -> list[Suspect]:
    """Return the suspects that by themselves show most of what is left, and least that is not."""
    gains = [(_gain(suspects, seen, one, left), one) for one in suspects.all]
    gains = [pair for pair in gains if pair[0] > 0]
    gains.sort(key=lambda pair: (-pair[0], pair[1].effect.rarity))
    return [one for _, one in gains[:MOST_TRIED]]


def _gain(suspects: Suspects, seen: Seen, one: Suspect, left: int) -> int:
    gain = 0
    if one.rest:
        is_seen = one.rest <= seen.rest
        gain += bool(left & suspects.at_rest) if is_seen else -len(suspects.board.keys)
    for key, pairs in one.looks.items():
        is_left = left >> key & 1
        if key in seen.keys and is_left == (seen.keys[key] == pairs):
            gain += 1 if is_left else -1
    return gain
