"""Figures with their units, as a reader wants them: three digits and a prefix of the SI."""

from __future__ import annotations

PREFIXES = {-12: "p", -9: "n", -6: "µ", -3: "m", 0: "", 3: "k", 6: "M"}
"""Prefixes by their power of ten (SI)."""

SYMBOLS = {"ohm": "Ω"}
"""How units are shown whose names in data are words."""

DIGITS = 3
PLAIN = {"V": 3, "m": 2, "mm": 1}
"""Units that keep their size, with the digits after the point: one compares their columns."""


def shown(value: float, unit: str) -> str:
    """Return a value with its unit: `0.616 V`, `134 µA`, `20 kΩ`, `-0.056 V`."""
    if unit in PLAIN:
        return f"{value:.{PLAIN[unit]}f} {unit}"
    size = abs(value)
    power = next((power for power in PREFIXES if size < 999.5 * 10.0**power), max(PREFIXES))
    scaled = value / 10.0 ** (power if value else 0)
    digits = max(0, DIGITS - len(str(int(abs(scaled)))))
    text = f"{scaled:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return f"{text} {PREFIXES[power] if value else ''}{SYMBOLS.get(unit, unit)}"
