"""A knob: a rotary encoder with two pins, A and B, whose third leg is on ground."""

from __future__ import annotations

from typing import ClassVar

from matrixgen.model.component import Component, ComponentKind


class Knob(Component, kw_only=True):
    """A knob as it is wired: its pins are those of A and B, in this order."""

    kind: ClassVar[ComponentKind] = "knob"
