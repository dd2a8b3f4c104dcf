"""The keys that somebody who uses a keymap presses together."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from matrixgen.model import Keyboard
from matrixgen.model.layer_states import LayerKeys, LayerState
from matrixgen.record import Record

MOST_MODIFIERS = 3
"""Modifier keys that one presses with another key: the four of a hand less one (a choice)."""


class Use(Record, kw_only=True):
    """What may be down at once while some layers are on.

    `held` are the keys that hold the layers on, `others` those of which one more may be down, and
    `modifiers` those of which up to three more may be. `layers` are the names of the layers that
    are on above the base layer.
    """

    layers: tuple[str, ...]
    held: frozenset[str]
    modifiers: frozenset[str]
    others: frozenset[str]

    @property
    def is_boot_loader(self) -> bool:
        """Whether its keys start the boot loader together."""
        return bool(self.held) and not self.others

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
    def all(self) -> tuple[Use, ...]:
        """Each use, the base layer's first, and at the end that of `boot-loader hold`."""
        keys = LayerKeys(self.keyboard)
        states = keys.states()
        uses = [self._use(keys, state, states) for state in states]
        together = frozenset(word.text for word in self.keyboard.boot_loader.hold)
        if together:
            none = frozenset[str]()
            uses.append(Use(layers=(), held=together, modifiers=none, others=none))
        return tuple(uses)

    def of(self, keys: Iterable[str]) -> Use | None:
        """Return a use in which these keys, or more, are down together, or None."""
        wanted = frozenset(keys)
        return next((use for use in self.all if use.has(wanted)), None)

    def _use(self, keys: LayerKeys, state: LayerState, states: Iterable[LayerState]) -> Use:
        before = [other for other in states if other.held <= state.held]
        return Use(
            layers=keys.names_of(state.layers),
            held=state.held,
            modifiers=frozenset().union(*(keys.modifiers(other.layers) for other in before)),
            others=keys.doing_something(state.layers),
        )
