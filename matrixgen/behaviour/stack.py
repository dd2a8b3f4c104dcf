"""The layers, one on top of the other: which are on, and what a key does through them."""

from __future__ import annotations

from collections.abc import Sequence, Set

from matrixgen.behaviour.together import KeySet
from matrixgen.model import BASE, Action, Layer
from matrixgen.model.joint_layers import joint_layers


class LayerStack:
    """All layers of a keyboard, from the base up."""

    def __init__(self, layers: Sequence[Layer], keys: Sequence[str]) -> None:
        """Take the layers in their order, the first of them the base, and the keys in theirs."""
        self.cells = {
            layer.name.text: {cell.key.text: cell.action for cell in layer.cells}
            for layer in layers
        }
        self.sets = {layer.name.text: _sets_of(layer, keys) for layer in layers}
        self._has_sets = any(self.sets.values())
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

    def sets_on(self, on: Sequence[str]) -> list[KeySet]:
        """Return the sets of keys that count while these are on."""
        found: list[KeySet] = []
        taken: set[str] = set()
        for layer in on if self._has_sets else ():
            same = {one.keys for one in found}
            new = [one for one in self.sets[layer] if one.keys not in same]
            found += [one for one in new if taken.isdisjoint(one.keys)]
            taken |= self.cells[layer].keys()
        return found


def _sets_of(layer: Layer, keys: Sequence[str]) -> list[KeySet]:
    """Return a layer's sets, the keys of each in the order of the plate."""
    return [
        KeySet(tuple(sorted(one.key_names, key=keys.index)), one.action, one.within_ms)
        for one in layer.together
    ]
