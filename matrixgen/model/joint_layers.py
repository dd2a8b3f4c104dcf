"""Layers that are on while others are."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.model.layers import Layer


def joint_layers(layers: Sequence[Layer]) -> list[Layer]:
    """Return the layers that need others, each after those of them that it needs.

    The reader has seen to it that none needs itself, by way of others either.
    """
    waiting = [layer for layer in layers if layer.needs]
    ordered: list[Layer] = []
    while waiting:
        open_names = {layer.name.text for layer in waiting}
        ready = [one for one in waiting if open_names.isdisjoint(word.text for word in one.needs)]
        assert ready, "layers need each other"
        ordered += ready
        waiting = [one for one in waiting if one not in ready]
    return ordered
