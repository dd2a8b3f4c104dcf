"""A knob: a rotary encoder with two pins, A and B, whose third leg is on ground."""

from __future__ import annotations

from typing import ClassVar

from matrixgen.model.component import Component, ComponentKind
from matrixgen.model.work import Reflash

STATES = (2, 4, 8)
"""How many states of A and B may lie between two detents: kinds with 30, 24 and 12 detents for 15,
24 and 24 pulses a turn, of four states each, are in catalogues of 11 and 12 mm encoders."""

USUAL_STATES = 4
"""Those of a knob of which the file does not say how many: the 12 mm kind with as many detents as
pulses."""

WAYS = ("left", "right")


class Knob(Component, kw_only=True):
    """A knob as it is wired: its pins are those of A and B, in this order.

    `states` is how many states of the two lie from one detent to the next.
    """

    kind: ClassVar[ComponentKind] = "knob"

    states: Reflash[int] = USUAL_STATES

    @property
    def steps(self) -> tuple[str, str]:
        """What layers call a step to the left and one to the right."""
        return steps_of(self.name.text)


def steps_of(knob: str) -> tuple[str, str]:
    """Return what layers call the steps of a knob of this name: to the left, to the right."""
    left, right = WAYS
    return f"{knob}.{left}", f"{knob}.{right}"
