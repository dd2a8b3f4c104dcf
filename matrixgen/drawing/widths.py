"""Widths of keys in a line, guessed from its middles: the fewest gaps and odd widths explain it."""

from __future__ import annotations

from collections.abc import Sequence

USUAL_WIDTHS = (1.25, 1.5, 1.75, 2.0, 2.25, 2.75, 6.25, 7.0)
"""Of keycaps wider than one unit (common practice, no source). One of 3 is left out: an `Up` among
arrow keys, with a gap of 1 on either side, is more often what it would be taken for."""

GAP_COST, WIDE_COST = 1.0, 0.4
"""A row of modifiers is eight wide keys and one gap, rather than three and five (our choice)."""

ROUNDING = 0.002
"""Key units that are no gap."""


def widths_of(middles: Sequence[float], rooms: Sequence[float]) -> list[float]:
    """Return a width for each key of a line, in key units, so that none reaches into the next.

    `middles` are from the left, and `rooms` the widths that each has for certain. A key becomes
    wider only if that leaves fewer gaps, and none begins left of 0.
    """
    states: list[dict[float, tuple[float, float | None]]] = []  # by width: cost, width before
    for number, (x, room) in enumerate(zip(middles, rooms, strict=True)):
        options = (room, *USUAL_WIDTHS) if room == 1 else (room,)
        reached: dict[float, tuple[float, float | None]] = {}
        for width in options:
            left = x - width / 2
            if width > 1 and left < -ROUNDING:
                continue
            before = _before(states, middles, number, left)
            if before:
                cost = before[0] + (WIDE_COST if width > 1 else 0.0)
                reached[width] = (cost, before[1])
        states.append(reached)
    return _best(states)


def _before(
    states: Sequence[dict[float, tuple[float, float | None]]],
    middles: Sequence[float],
    number: int,
    left: float,
) -> tuple[float, float | None] | None:
    """Return what a key that begins at `left` costs at least, and the width before it for that."""
    if number == 0:
        return (GAP_COST if abs(left) > ROUNDING else 0.0), None
    found = [
        (cost + (GAP_COST if left - end > ROUNDING else 0.0), width)
        for width, (cost, _) in states[-1].items()
        for end in (middles[number - 1] + width / 2,)
        if left - end > -ROUNDING
    ]
    return min(found, default=None)


def _best(states: Sequence[dict[float, tuple[float, float | None]]]) -> list[float]:
    found: list[float] = []
    width: float | None = min(states[-1], key=lambda one: (states[-1][one][0], one))
    for reached in reversed(states):
        assert width is not None
        found.append(width)
        width = reached[width][1]
    return found[::-1]
