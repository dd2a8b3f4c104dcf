"""Which layers can be on together, and what keys do then; sets are as in `layer_effects.py`."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cached_property

from matrixgen.model.actions import Action, is_modifier
from matrixgen.model.keyboard import Keyboard
from matrixgen.model.layer_effects import BASE_ALONE, BASES, Effect, LayersLeft, effects_of
from matrixgen.model.layers import Together
from matrixgen.record import Record

MOST_STATES = 4096
"""States that are tried before giving up: enough for some ten independent latches."""


FEW_KEYS = 40
"""Keys that turn layers on, of which each so many more make a state take as long again to try."""


class LayerState(Record):
    """A set of layers that can be on, and keys that must be held down for it."""

    layers: int
    held: frozenset[str]


class LayerKeys(Record):
    """A keyboard's keys, asked what they do while some layers are on.

    Keys that are one action together count as a key more, by the name that `name_together` gives.
    """

    keyboard: Keyboard

    @cached_property
    def number_of(self) -> dict[str, int]:
        """The number of each layer by its name."""
        return {layer.name.text: number for number, layer in enumerate(self.keyboard.layers)}

    @cached_property
    def _actions(self) -> dict[str, dict[int, Action]]:
        """What each key does by the layer's number, in the order of the highest layer's keys."""
        found: dict[str, dict[int, Action]] = {}
        for number in reversed(range(len(self.keyboard.layers))):
            for cell in self.keyboard.layers[number].cells:
                found.setdefault(cell.key.text, {}).setdefault(number, cell.action)
        for number in reversed(range(len(self.keyboard.layers))):
            for one in self.keyboard.layers[number].together:
                found.setdefault(name_together(one), {}).setdefault(number, one.action)
        return found

    @cached_property
    def members(self) -> dict[str, tuple[str, ...]]:
        """The keys of each set, by its name."""
        sets = (one for layer in self.keyboard.layers for one in layer.together)
        return {name_together(one): one.key_names for one in sets}

    def keys_of(self, key: str) -> tuple[str, ...]:
        """Return the keys that are pressed where this one is: all of a set, or it alone."""
        return self.members.get(key, (key,))

    @property
    def pressable(self) -> tuple[str, ...]:
        """All keys that do something on some layer, and all sets."""
        return tuple(self._actions)

    @cached_property
    def _layers(self) -> dict[str, int]:
        """The layers that each key does something on."""
        return {key: sum(1 << n for n in actions) for key, actions in self._actions.items()}

    @cached_property
    def _effects(self) -> dict[int, tuple[Effect, ...]]:
        """What each key's actions do to layers, by the identity of the action; many do nothing.

        What is equal is the same object.
        """
        every = (action for actions in self._actions.values() for action in actions.values())
        effects = {id(action): tuple(effects_of(action, self.number_of)) for action in every}
        same: dict[tuple[Effect, ...], tuple[Effect, ...]] = {}
        return {one: same.setdefault(some, some) for one, some in effects.items() if some}

    @cached_property
    def turning(self) -> tuple[str, ...]:
        """The keys that turn some layer on or off, on some layer."""
        return tuple(
            key
            for key, actions in self._actions.items()
            if any(id(action) in self._effects for action in actions.values())
        )

    @cached_property
    def _needs(self) -> tuple[tuple[int, int], ...]:
        """Each layer that needs others: its bit, and theirs."""
        needing = ((n, layer.needs) for n, layer in enumerate(self.keyboard.layers) if layer.needs)
        return tuple(
            (1 << n, sum(1 << self.number_of[word.text] for word in needs)) for n, needs in needing
        )

    def with_needing(self, layers: int) -> int:
        """Return a set of layers with those that are on because all that they need is on."""
        if not self._needs:
            return layers
        on = layers | layers >> BASES
        while True:
            new = sum(bit for bit, needed in self._needs if not bit & on and needed & ~on == 0)
            if not new:
                return layers
            layers, on = layers | new, on | new

    def action_of(self, key: str, layers: int) -> Action | None:
        """Return what a key does while these layers are on: its action in the highest of them."""
        number = self.layer_of(key, layers)
        return None if number is None else self._actions[key][number]

    def layer_of(self, key: str, layers: int) -> int | None:
        """Return the number of the layer that says what a key does while these are on."""
        own = self._layers[key]
        on = own & layers & ~BASE_ALONE or own & layers >> BASES or own & layers & BASE_ALONE
        if not on or (key in self.members and self._is_covered(key, layers)):
            return None
        return on.bit_length() - 1

    def _is_covered(self, name: str, layers: int) -> bool:
        """Whether a key of a set has a cell on a layer above the set's."""
        height = self._height(name, layers)
        return any(self._height(key, layers) > height for key in self.members[name])

    def _height(self, key: str, layers: int) -> tuple[int, int]:
        """Return how high the layer lies, of those that are on, that says what a key does."""
        own = self._layers[key]
        above, beneath = own & layers & ~BASE_ALONE, own & layers >> BASES
        return (2, above.bit_length()) if above else (1, 0) if beneath else (0, 0)

    def effects_of(self, key: str, layers: int) -> tuple[Effect, ...]:
        """Return what a key may do to layers while these are on, by itself or by a part of it."""
        return self._effects.get(id(self.action_of(key, layers)), ())

    def effects_on(self, layers: int) -> tuple[Effect, ...]:
        """Return what a press of any one key may do to layers while these are on, each once."""
        if layers not in self._known:
            of_keys = (self.effects_of(key, layers) for key in self.turning)
            some = {id(effects): effects for effects in of_keys}.values()
            self._known[layers] = tuple(dict.fromkeys(one for effects in some for one in effects))
        return self._known[layers]

    @cached_property
    def _known(self) -> dict[int, tuple[Effect, ...]]:
        return {}

    def names_of(self, layers: int) -> tuple[str, ...]:
        """Return the names of a set of layers, without the base layer's."""
        on = layers | layers >> BASES
        return tuple(name for name, number in self.number_of.items() if number and on >> number & 1)

    def doing_something(self, layers: int) -> frozenset[str]:
        """Return the keys that are not dead on purpose while these layers are on."""
        return self._keys(layers, lambda action: not action.does_nothing)

    def modifiers(self, layers: int) -> frozenset[str]:
        """Return the keys that send modifiers and nothing else while these layers are on."""
        return self._keys(layers, is_modifier)

    def _keys(self, layers: int, fits: Callable[[Action], bool]) -> frozenset[str]:
        single = (key for key in self._actions if key not in self.members)
        actions = ((key, self.action_of(key, layers)) for key in single)
        return frozenset(key for key, action in actions if action and fits(action))

    def states(self) -> tuple[LayerState, ...]:
        """Return every state that keys can bring about, with as few keys held as possible.

        States are found from the base layer on, fewer presses first. After some thousand the
        search ends, and what it has found is returned.
        """
        return self._search[0]

    @property
    def has_all_states(self) -> bool:
        """Whether the search for states came to its end."""
        return self._search[1]

    @cached_property
    def _search(self) -> tuple[tuple[LayerState, ...], bool]:
        found: dict[tuple[LayersLeft, int], list[_Fingers]] = {}
        waiting = [_Fingers(LayersLeft(), frozenset())]
        seen, tried = set(waiting), 0
        for fingers in waiting:  # it grows
            alike = found.setdefault((fingers.left, fingers.layers), [])
            if any(other.holds <= fingers.holds for other in alike):
                continue
            alike.append(fingers)
            tried += 1 + len(self.turning) // FEW_KEYS
            new = [one for one in self._steps(fingers) if one not in seen]
            seen.update(new)
            waiting += new
            if max(len(waiting), tried) > MOST_STATES:
                break
        states = (self._state(one) for alike in found.values() for one in alike)
        return tuple(dict.fromkeys(states)), max(len(waiting), tried) <= MOST_STATES

    def _state(self, fingers: _Fingers) -> LayerState:
        held = frozenset(one for key, _ in fingers.holds for one in self.keys_of(key))
        return LayerState(self.with_needing(fingers.layers), held)

    def _steps(self, fingers: _Fingers) -> Iterator[_Fingers]:
        """Yield where one more press leads, be it of a key that types, and letting all keys go."""
        left, holds = fingers.left, fingers.holds
        yield _Fingers(left.after_typing(), frozenset())
        if left.once:
            yield _Fingers(left.after_typing(), holds)
        state = self._state(fingers)
        for key in self.turning:
            is_up = state.held.isdisjoint(self.keys_of(key))
            for effect in self.effects_of(key, state.layers) if is_up else ():
                if effect.held:
                    yield _Fingers(left, holds | {(key, effect.held)})
                after = effect.pressed(left)
                if after != left:
                    yield _Fingers(after, holds)


def name_together(one: Together) -> str:
    """Return the name of a set of keys: no key's name has a space."""
    return " ".join(sorted(one.key_names))


class _Fingers(Record):
    """What presses have left on, and the keys that are held, each with the layers that it holds."""

    left: LayersLeft
    holds: frozenset[tuple[str, int]]

    @property
    def layers(self) -> int:
        layers = self.left.layers
        for _, held in self.holds:
            layers |= held
        return layers
