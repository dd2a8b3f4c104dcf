"""A key that turns a layer on for the next key only."""

from __future__ import annotations

from matrixgen.model.actions.behaviour import Behaviour, LayerEnd, LayerTurn


class OnceLayer(Behaviour):
    """The layer is on for the next key; pressed twice, until pressed again; and while held."""

    layer: str

    @property
    def phrase(self) -> str:
        """`once layer NAME`."""
        return f"once layer {self.layer}"

    @property
    def turns_on(self) -> tuple[LayerTurn, ...]:
        """Its layer, for the next key."""
        return (LayerTurn(self.layer, "for the next key"),)

    @property
    def turns_off(self) -> tuple[LayerEnd, ...]:
        """Its layer, if a key of this kind has left it on."""
        return (LayerEnd(self.layer, "for the next key"),)
