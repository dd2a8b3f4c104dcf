"""Which hand a key belongs to, as far as the plate tells."""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

from matrixgen.model.geometry import centre_of, corners_of
from matrixgen.model.plate import Key, Plate, PlateLine

Hand = Literal["left", "right"]

WIDE_GAP = 0.5
"""Units between two keys of a line that may part the hands."""

NEAR = 2.0
"""Units from the plate's middle within which such a gap does."""

IN_THE_MIDDLE = 0.5
"""Units from the middle within which a key, or a cluster, is of neither hand."""


def hands_of(plate: Plate) -> dict[str, Hand | None]:
    """Return the hand of each key by its name; None for a key that is as near to either hand.

    A key of a cluster is of the side that its cluster lies on, where there are several; any other
    key is of the side of its line's widest gap, or of the plate's middle.
    """
    if not plate.keys:
        return {}
    middle = _middle(plate.keys)
    of_cluster = _hands_of_clusters(plate, middle)
    found: dict[str, Hand | None] = {}
    for line in plate.lines:
        side = of_cluster.get(line.cluster)
        if side:
            found |= {key.name.text: side for key in line.keys}
        else:
            found |= _hands_in(line, middle)
    return found


def same_hand(one: Hand | None, other: Hand | None) -> bool:
    """Whether two keys are surely of one hand: a key of neither is the other hand to both."""
    return one is not None and one == other


def _hands_of_clusters(plate: Plate, middle: float) -> dict[str | None, Hand]:
    """Return the side of each cluster that lies on one, where there are two or more."""
    keys: dict[str | None, list[Key]] = {}
    for line in plate.lines:
        keys.setdefault(line.cluster, []).extend(line.keys)
    if len(keys) < 2:
        return {}
    centres = {name: _middle(of_it) for name, of_it in keys.items() if of_it}
    return {
        name: "left" if centre < middle else "right"
        for name, centre in centres.items()
        if abs(centre - middle) >= IN_THE_MIDDLE and not _spans(keys[name], middle)
    }


def _spans(keys: list[Key], middle: float) -> bool:
    """Whether keys lie on both sides of the middle, clear of it."""
    centres = [centre_of(key)[0] - middle for key in keys]
    return min(centres) < -IN_THE_MIDDLE and max(centres) > IN_THE_MIDDLE


def _middle(keys: tuple[Key, ...] | list[Key]) -> float:
    """Return the middle between the leftmost and the rightmost point of some keys."""
    places = [x for key in keys for x, _ in corners_of(key)]
    return (min(places) + max(places)) / 2


def _hands_in(line: PlateLine, middle: float) -> dict[str, Hand | None]:
    """Return the hands of a line's keys."""
    keys = sorted(line.keys, key=lambda key: centre_of(key)[0])
    parted = _widest_gap(keys, middle)
    found: dict[str, Hand | None] = {}
    for key in keys:
        away = centre_of(key)[0] - (middle if parted is None else parted)
        is_between = parted is None and abs(away) < max(IN_THE_MIDDLE, key.width / 2)
        found[key.name.text] = None if is_between else "left" if away < 0 else "right"
    return found


def _widest_gap(keys: list[Key], middle: float) -> float | None:
    """Return the middle of a line's widest gap where it parts the hands."""
    gaps = [(_left(after) - _right(key), key, after) for key, after in pairwise(keys)]
    wide = [(width, (_right(key) + _left(after)) / 2) for width, key, after in gaps]
    near = [(width, at) for width, at in wide if width >= WIDE_GAP and abs(at - middle) <= NEAR]
    return max(near)[1] if near else None


def _left(key: Key) -> float:
    return centre_of(key)[0] - key.width / 2


def _right(key: Key) -> float:
    return centre_of(key)[0] + key.width / 2
