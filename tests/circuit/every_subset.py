"""The brute force: what every subset of a matrix's keys makes read low, by numpy.

Nothing here is shared with `matrixgen.circuit`: reachability is spread step by step, for all
subsets of the keys at once, until nothing changes.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from matrixgen.model import Contact, Matrix


def ghosting_subsets(matrix: Matrix) -> dict[int, set[int]]:
    """Return the subsets that make a ghost, as numbers with bit n for key n, and what each shows.

    A subset's value is the set of the numbers of the keys that are seen and not pressed.
    """
    keys = matrix.contacts
    subsets = np.arange(1 << len(keys), dtype=np.uint32)
    found: dict[int, set[int]] = {}
    for drive in range(len(matrix.drives)):
        low = _low_senses(matrix, subsets, drive)
        for number, key in enumerate(keys):
            if key.drive == drive:
                seen = low[key.sense] & (subsets >> np.uint32(number) & 1 == 0)
                for subset in np.flatnonzero(seen):
                    found.setdefault(int(subset), set()).add(number)
    return found


def _low_senses(matrix: Matrix, subsets: NDArray[np.uint32], drive: int) -> list[NDArray[np.bool_]]:
    """Return for each sensed line in which subsets it is low while one driven line is."""
    low_senses = [np.zeros(len(subsets), bool) for _ in matrix.senses]
    low_drives = [np.full(len(subsets), number == drive) for number in range(len(matrix.drives))]
    while True:
        before = sum(int(low.sum()) for low in low_senses + low_drives)
        for number, key in enumerate(matrix.contacts):
            pressed = subsets >> np.uint32(number) & 1 == 1
            if key.diode in ("toward", "none"):  # current leaves the sensed line
                low_senses[key.sense] |= pressed & low_drives[key.drive]
            if key.diode in ("away", "none"):  # current leaves the driven line
                low_drives[key.drive] |= pressed & low_senses[key.sense]
        if sum(int(low.sum()) for low in low_senses + low_drives) == before:
            return low_senses


def fewest_diodes_of_all(matrix: Matrix) -> int:
    """Return the size of the smallest set of keys that, given diodes, leave no ghost.

    All sets of keys are tried at once. A key can be seen by mistake if and only if current finds a
    way between its lines while every key but itself is pressed. Reversed diodes are turned first.
    """
    diodes = np.arange(1 << len(matrix.contacts), dtype=np.uint32)
    is_safe = np.ones(len(diodes), bool)
    for key in matrix.contacts:
        is_safe &= ~_is_seen(matrix, diodes, key)
    return min(int(chosen).bit_count() for chosen in np.flatnonzero(is_safe))


def _is_seen(matrix: Matrix, diodes: NDArray[np.uint32], key: Contact) -> NDArray[np.bool_]:
    low_senses = [np.zeros(len(diodes), bool) for _ in matrix.senses]
    low_drives = [np.full(len(diodes), number == key.drive) for number in range(len(matrix.drives))]
    while True:
        before = sum(int(low.sum()) for low in low_senses + low_drives)
        for number, other in enumerate(matrix.contacts):
            if other is not key:
                low_senses[other.sense] |= low_drives[other.drive]
                if other.diode == "none":
                    is_bare = diodes >> np.uint32(number) & 1 == 0
                    low_drives[other.drive] |= is_bare & low_senses[other.sense]
        if sum(int(low.sum()) for low in low_senses + low_drives) == before:
            return low_senses[key.sense]


def minimal(subsets: dict[int, set[int]]) -> set[int]:
    """Return the subsets none of whose parts is one of them."""
    kept: list[int] = []
    for subset in sorted(subsets, key=int.bit_count):
        if not any(other & subset == other for other in kept):
            kept.append(subset)
    return set(kept)
