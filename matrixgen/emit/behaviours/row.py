"""A row of the firmware's action table."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from matrixgen.model import Media, TapHold


@dataclass(frozen=True, slots=True)
class Numbers:
    """The firmware's numbers of layers and bases by names, keys with two meanings, media keys."""

    layers: Mapping[str, int] = field(default_factory=dict)
    bases: Mapping[str, int] = field(default_factory=dict)
    tap_holds: Mapping[TapHold, int] = field(default_factory=dict)
    media: Mapping[Media, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Row:
    """An action as `tables.h` describes it: its kind, and 16 bits whose meaning the kind gives.

    `in_hex` is whether a person reads them best in hexadecimal.
    """

    kind: str
    operand: int = 0
    in_hex: bool = False

    @property
    def operand_text(self) -> str:
        """The operand as it stands in the table."""
        return f"0x{self.operand:04X}" if self.in_hex else str(self.operand)
