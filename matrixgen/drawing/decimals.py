"""Numbers for a file that a person reads on: as few decimals as their tolerance allows."""

from __future__ import annotations

MOST_DECIMALS = 6


def shortest(low: float, high: float) -> float:
    """Return the number from `low` to `high` with the fewest decimals, near the middle."""
    middle = (low + high) / 2
    for decimals in range(MOST_DECIMALS):
        found = round(middle, decimals)
        if low <= found <= high:
            return found + 0.0  # not -0
    return round(middle, MOST_DECIMALS) + 0.0


def near(value: float, tolerance: float) -> float:
    """Return the number with the fewest decimals that is as near as that to a value."""
    return shortest(value - tolerance, value + tolerance)


def written(value: float) -> str:
    """Return a number as a file has it: no exponent, no zeros at its end."""
    text = f"{value:.{MOST_DECIMALS}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
