"""Which layers can be on together, and what keys do then.

A set of layers is a number with bit n set for `keyboard.layers[n]`; the base layer's bit, 0, is
always set.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cached_property

from matrixgen.model.actions import Action, LayerTurn, is_modifier, layer_turns
from matrixgen.model.keyboard import Keyboard
from matrixgen.record import Record

BASE_ALONE = 1
MOST_STATES = 4096
"""States that are tried before giving up: enough for some ten independent latches."""


class LayerState(Record):
    """A set of layers that can be on, and keys that must be held down for it."""

    layers: int
    held: frozenset[str]


class LayerKeys(Record):
    """A keyboard's keys, asked what they do while some layers are on."""

    keyboard: Keyboard

    @cached_property
    def number_of(self) -> dict[str, int]:
        """The number of each layer by its name."""
        return {layer.name.text: number for number, layer in enumerate(self.keyboard.layers)}

    @cached_property
    def _actions(self) -> dict[str, list[tuple[int, Action]]]:
        """What each key does, from the highest layer down, in the order of the base layer."""
        found: dict[str, list[tuple[int, Action]]] = {}
        for number in reversed(range(len(self.keyboard.layers))):
            for cell in self.keyboard.layers[number].cells:
                found.setdefault(cell.key.text, []).append((number, cell.action))
        return found

    @cached_property
    def turning(self) -> tuple[str, ...]:
        """The keys that turn some layer on or off, on some layer."""
        return tuple(
            key
            for key, actions in self._actions.items()
            if any(layer_turns(action) for _, action in actions)
        )

    def action_of(self, key: str, layers: int) -> Action | None:
        """Return what a key does while these layers are on: its action in the highest of them."""
        return next((one for n, one in self._actions[key] if layers >> n & 1), None)

    def turns_of(self, key: str, layers: int) -> tuple[LayerTurn, ...]:
        """Return what a key turns on or off while these layers are on."""
        action = self.action_of(key, layers)
        return layer_turns(action) if action else ()

    def names_of(self, layers: int) -> tuple[str, ...]:
        """Return the names of a set of layers, without the base layer's."""
        return tuple(
            name for name, number in self.number_of.items() if number and layers >> number & 1
        )

    def doing_something(self, layers: int) -> frozenset[str]:
        """Return the keys that are not dead on purpose while these layers are on."""
        return self._keys(layers, lambda action: not action.does_nothing)

    def modifiers(self, layers: int) -> frozenset[str]:
        """Return the keys that send modifiers and nothing else while these layers are on."""
        return self._keys(layers, is_modifier)

    def _keys(self, layers: int, fits: Callable[[Action], bool]) -> frozenset[str]:
        actions = ((key, self.action_of(key, layers)) for key in self._actions)
        return frozenset(key for key, action in actions if action and fits(action))

    def states(self) -> tuple[LayerState, ...]:
        """Return every state that keys can bring about, with as few keys held as possible.

        States are found from the base layer on, fewer presses first. After some thousand the
        search ends, and what it has found is returned.
        """
        found: dict[tuple[int, int], list[_Fingers]] = {}
        waiting = [_Fingers(BASE_ALONE, frozenset())]
        seen = set(waiting)
        for fingers in waiting:  # it grows
            alike = found.setdefault((fingers.latched, fingers.layers), [])
            if any(other.holds <= fingers.holds for other in alike):
                continue
            alike.append(fingers)
            new = [one for one in self._steps(fingers) if one not in seen]
            seen.update(new)
            waiting += new
            if len(waiting) > MOST_STATES:
                break
        return tuple(dict.fromkeys(one.state for alike in found.values() for one in alike))

    def _steps(self, fingers: _Fingers) -> Iterator[_Fingers]:
        """Yield where one more press leads, and letting all keys go."""
        yield _Fingers(fingers.latched, frozenset())
        for key in self.turning:
            if key in fingers.state.held:
                continue
            for turn in self.turns_of(key, fingers.layers):
                layer = 1 << self.number_of[turn.layer]
                if turn.lasts == "until pressed again":
                    yield _Fingers(fingers.latched ^ layer, fingers.holds)
                else:
                    yield _Fingers(fingers.latched, fingers.holds | {(key, layer)})


class _Fingers(Record):
    """What is latched, and the keys that are held with the layer that each of them holds on."""

    latched: int
    holds: frozenset[tuple[str, int]]

    @property
    def layers(self) -> int:
        layers = self.latched
        for _, layer in self.holds:
            layers |= layer
        return layers

    @property
    def state(self) -> LayerState:
        return LayerState(self.layers, frozenset(key for key, _ in self.holds))
