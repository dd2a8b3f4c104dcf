"""Sets of small numbers, as the bits of one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator


def mask(places: Iterable[int]) -> int:
    """Return numbers as bits."""
    found = 0
    for place in places:
        found |= 1 << place
    return found


def bits(of: int) -> Iterator[int]:
    """Yield each bit of a number that is set, the lowest first."""
    while of:
        lowest = of & -of
        yield lowest
        of ^= lowest


def bits_of(mask: int) -> tuple[int, ...]:
    """Return the numbers that stand in some bits, the lowest first."""
    return tuple(bit.bit_length() - 1 for bit in bits(mask))
