"""Keys as a statement names them: one by one, and as runs in the order of the plate."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

SHORTEST = 3
"""Keys that make a run worth writing: `A B` is shorter than `A to B`."""


def in_runs(names: Sequence[str], order: Mapping[str, int]) -> list[str]:
    """Return keys in their own order, neighbours on the plate as `A to D`, forwards or backwards.

    `order` has the place of each key on the plate.
    """
    pieces: list[str] = []
    start = 0
    while start < len(names):
        end = _end_of_run(names, order, start)
        run = names[start : end + 1]
        pieces += [f"{run[0]} to {run[-1]}"] if len(run) >= SHORTEST else [run[0]]
        start = end + 1 if len(run) >= SHORTEST else start + 1
    return pieces


def _end_of_run(names: Sequence[str], order: Mapping[str, int], start: int) -> int:
    """Return where the longest run from a place on ends: there itself, if there is none."""
    best = start
    for step in (1, -1):
        end = start
        while end + 1 < len(names) and order[names[end + 1]] - order[names[end]] == step:
            end += 1
        best = max(best, end)
    return best
