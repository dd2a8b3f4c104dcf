"""A key that turns a layer on, and with its next press off."""

from __future__ import annotations

from matrixgen.model.actions.behaviour import Behaviour, LayerEnd, LayerTurn


class LatchLayer(Behaviour):
    """Each press turns the layer on, or off again."""

    layer: str

    @property
    def phrase(self) -> str:
        """`latch layer NAME`."""
        return f"latch layer {self.layer}"

    @property
    def turns_on(self) -> tuple[LayerTurn, ...]:
        """Its layer, until that press turns it off again."""
        return (LayerTurn(self.layer, "until pressed again"),)

    @property
    def turns_off(self) -> tuple[LayerEnd, ...]:
        """Its layer, if it is latched."""
        return (LayerEnd(self.layer, "until pressed again"),)
