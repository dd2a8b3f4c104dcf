"""What is on the plate besides the switches and has pins of its own: lights and knobs.

Each stands in two blocks under one name: `plate` says where it lies, `wiring` on which pins it is.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar, Literal

from matrixgen.model.text import Span, Word
from matrixgen.model.work import Cosmetic, Solder
from matrixgen.record import Record

ComponentKind = Literal["light", "knob"]

PINS_OF: Mapping[ComponentKind, int] = {"light": 1, "knob": 2}
"""How many pins each takes. The plate alone says so much, before anything is wired."""


class ComponentSize(Record):
    """What a component takes of the plate, in millimetres: its hole, and how wide it is in all."""

    hole_mm: float
    room_mm: float


SIZES: Mapping[ComponentKind, ComponentSize] = {
    "light": ComponentSize(3.2, 4.0),
    "knob": ComponentSize(7.2, 16.7),
}
"""A light is a round LED of 3 mm, whose flange has 4.0 (LED drawings); a hole of 3.2 holds it (from
memory). A knob's bushing is an M7 thread; its body has 12.0 by 11.6, and may lie as it likes
(KiCad's footprint of an encoder of 11 mm; the hole is from memory)."""


class ComponentPlace(Record, kw_only=True):
    """Where the middle of a component lies, in key units; `span` is its statement on the plate.

    It is the plate's own and turns with no cluster.
    """

    kind: Solder[ComponentKind]
    name: Cosmetic[Word]
    x: Solder[float]
    y: Solder[float]
    span: Span

    @property
    def called(self) -> str:
        """Its kind and its name, such as `light nav`: no two components are called the same."""
        return f"{self.kind} {self.name}"

    @property
    def size(self) -> ComponentSize:
        """What it takes of the plate."""
        return SIZES[self.kind]


class Component(Record, kw_only=True):
    """A component as it is wired; `span` is its statement. Its pins are in `Mounting`."""

    kind: ClassVar[ComponentKind]
    in_image: ClassVar[tuple[str, ...]] = ()
    """Fields that are soldered and that an image has too."""

    name: Cosmetic[Word]
    span: Span

    @property
    def called(self) -> str:
        """Its kind and its name, such as `light nav`: no two components are called the same."""
        return f"{self.kind} {self.name}"
