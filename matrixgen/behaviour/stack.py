"""The layers, one on top of the other: which are on, and what a key does through them."""

from __future__ import annotations

from collections.abc import Sequence, Set

from matrixgen.model import BASE, Action, Layer
from matrixgen.model.joint_layers import joint_layers


class LayerStack:
    """All layers of a keyboard, from the base up."""

    def __init__(self, layers: Sequence[Layer]) -> None:
        """Take the layers in their order; the first is the base."""
        self.cells = {
            layer.name.text: {cell.key.text: cell.action for cell in layer.cells}
            for layer in layers
        }
        self._joint = joint_layers(layers)

    def on(self, held: Set[str], lowest: str) -> list[str]:
        """Return the layers that are on, from the top down.

        The last ones are the lowest, on which the others lie, and the base.
        """
        on = set(held)
        for layer in self._joint:
            if {name.text for name in layer.needs} <= on | {lowest}:
                on.add(layer.name.text)
        names = [name for name in self.cells if name in on - {BASE}]
        return [*reversed(names), *([lowest] if lowest != BASE else []), BASE]

    def action_of(self, key: str, on: Sequence[str]) -> Action:
        """Return what a key does while these are on."""
        return next(self.cells[layer][key] for layer in on if key in self.cells[layer])
