"""A key that ends every layer that presses have left on."""

from __future__ import annotations

from matrixgen.model.actions.behaviour import Behaviour, LayerEnd


class UnlatchLayers(Behaviour):
    """A press turns off the latched layers, and those that `once` keys have left on.

    Layers whose keys are down stay on, and so does the base that a key has changed.
    """

    @property
    def phrase(self) -> str:
        """`unlatch layers`."""
        return "unlatch layers"

    @property
    def turns_off(self) -> tuple[LayerEnd, ...]:
        """Every layer that stays on by itself, but the base."""
        return (LayerEnd(None, "until pressed again"), LayerEnd(None, "for the next key"))
