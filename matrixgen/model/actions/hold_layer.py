"""A key that holds a layer on."""

from __future__ import annotations

from matrixgen.model.actions.behaviour import Behaviour, LayerTurn


class HoldLayer(Behaviour):
    """The layer is on for as long as the key is down."""

    layer: str

    @property
    def phrase(self) -> str:
        """`hold layer NAME`."""
        return f"hold layer {self.layer}"

    @property
    def turns_on(self) -> tuple[LayerTurn, ...]:
        """Its layer, while the key is down."""
        return (LayerTurn(self.layer, "while down"),)
