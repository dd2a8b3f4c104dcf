"""The keys that somebody who uses a keymap presses together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property

from matrixgen.model import Keyboard
from matrixgen.model.layer_states import LayerKeys, LayerState
from matrixgen.record import Record

MOST_MODIFIERS = 3
"""Modifier keys that one presses with another key: the four of a hand less one (a choice)."""


class KeyUse(Record, kw_only=True):
    """What may be down at once while some layers are on.

    `held` are the keys that hold the layers on, `others` those of which one more may be down, and
    `modifiers` those of which up to three more may be. `layers` are the names of the layers that
    are on above the base layer. Those of `held` that do something together are in `together`.
    """

    layers: tuple[str, ...]
    held: frozenset[str]
    modifiers: frozenset[str]
    others: frozenset[str]
    together: frozenset[str] = frozenset()

    @property
    def is_boot_loader(self) -> bool:
        """Whether its keys start the boot loader together."""
        return bool(self.held) and not self.others and not self.together

    def has(self, keys: Iterable[str]) -> bool:
        """Whether these keys, or more, are down together in this use."""
        rest = set(keys) - self.held
        modifiers = rest & self.modifiers
        others = rest - modifiers
        if not others:
            return len(modifiers) <= MOST_MODIFIERS + bool(modifiers & self.others)
        return len(others) == 1 and others <= self.others and len(modifiers) <= MOST_MODIFIERS


class Uses(Record):
    """All uses of a keyboard's keymap, and the keys that start its boot loader together."""

    keyboard: Keyboard

    @cached_property
    def _keys(self) -> LayerKeys:
        return LayerKeys(self.keyboard)

    @property
    def is_complete(self) -> bool:
        """Whether all states of the layers were found: not where there are some thousand."""
        return self._keys.has_all_states

    @cached_property
    def all(self) -> tuple[KeyUse, ...]:
        """Each use, the base layer's first, and at the end that of `boot-loader hold`."""
        uses = [self._use(state) for state in self._keys.states()]
        uses += [use for state in self._keys.states() for use in self._sets(state)]
        together = frozenset(word.text for word in self.keyboard.boot_loader.hold)
        if together:
            none = frozenset[str]()
            uses.append(KeyUse(layers=(), held=together, modifiers=none, others=none))
        return tuple(uses)

    def of(self, keys: Iterable[str]) -> KeyUse | None:
        """Return a use in which these keys, or more, are down together, or None."""
        wanted = frozenset(keys)
        return next((use for use in self.all if use.has(wanted)), None)

    def _use(self, state: LayerState) -> KeyUse:
        return KeyUse(
            layers=self._keys.names_of(state.layers),
            held=state.held,
            modifiers=self._modifiers_until(state.held),
            others=self._keys.doing_something(state.layers),
        )

    def _sets(self, state: LayerState) -> Iterator[KeyUse]:
        """Yield the use of each set of keys that is one action while some layers are on."""
        for name, keys in self._keys.members.items():
            is_up = state.held.isdisjoint(keys)
            if is_up and self._keys.action_of(name, state.layers) is not None:
                yield KeyUse(
                    layers=self._keys.names_of(state.layers),
                    held=state.held | set(keys),
                    modifiers=self._modifiers_until(state.held),
                    others=frozenset(),
                    together=frozenset(keys),
                )

    def _modifiers_until(self, held: frozenset[str]) -> frozenset[str]:
        """Return the modifiers of all states that have been passed while no more keys are held."""
        if held not in self._known:
            fewer = (keys for of, keys in self._modifiers_by_held.items() if of <= held)
            self._known[held] = frozenset().union(*fewer)
        return self._known[held]

    @cached_property
    def _modifiers_by_held(self) -> dict[frozenset[str], frozenset[str]]:
        found: dict[frozenset[str], frozenset[str]] = {}
        for state in self._keys.states():
            modifiers = self._keys.modifiers(state.layers)
            found[state.held] = found.get(state.held, frozenset()) | modifiers
        return found

    @cached_property
    def _known(self) -> dict[frozenset[str], frozenset[str]]:
        return {}
