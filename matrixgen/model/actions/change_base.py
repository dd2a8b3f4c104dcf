"""A key that puts another layer at the bottom, for good."""

from __future__ import annotations

from matrixgen.model.actions.behaviour import Behaviour, LayerEnd, LayerTurn


class ChangeBase(Behaviour):
    """The layer lies on the base layer and below all others, until a key names another one.

    With the base layer's own name, nothing lies on it any more.
    """

    layer: str

    @property
    def phrase(self) -> str:
        """`change base to NAME`."""
        return f"change base to {self.layer}"

    @property
    def turns_on(self) -> tuple[LayerTurn, ...]:
        """Its layer, for good."""
        return (LayerTurn(self.layer, "for good"),)

    @property
    def turns_off(self) -> tuple[LayerEnd, ...]:
        """Every other layer that lies on the base layer."""
        return (LayerEnd(None, "for good"),)
