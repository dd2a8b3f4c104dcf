"""A row of the firmware's action table."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

LayerNumbers = Mapping[str, int]
"""The firmware's number for each layer, by the layer's name."""


@dataclass(frozen=True, slots=True)
class Row:
    """An action as `tables.h` describes it: its kind, and two bytes whose meaning the kind gives.

    `in_hex` is whether a person reads those bytes best in hexadecimal.
    """

    kind: str
    first: int = 0
    second: int = 0
    in_hex: bool = False

    @property
    def operands(self) -> str:
        """The two bytes as they stand in the table."""
        form = "0x{:02X}, 0x{:02X}" if self.in_hex else "{}, {}"
        return form.format(self.first, self.second)
