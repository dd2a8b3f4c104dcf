"""All that there is to say of a keyboard's ghosts."""

from __future__ import annotations

from functools import cached_property
from itertools import islice

from matrixgen.circuit.combinations import Use, Uses
from matrixgen.circuit.fewest_diodes import fewest_diodes
from matrixgen.circuit.ghosts import Ghost, counted_ghosts, minimal_ghosts, smallest_ghost_size
from matrixgen.circuit.network import Network
from matrixgen.model import Keyboard, Matrix
from matrixgen.record import Record

MOST_COUNTED = 10_000
"""Sets of keys that are counted; a matrix of 110 keys without diodes has about as many."""


class UsedGhost(Record):
    """A ghost, and the use of the keymap that has its keys down."""

    ghost: Ghost
    use: Use


class GhostReport(Record):
    """A keyboard and its matrix, asked for its ghosts; the answers are worked out when wanted."""

    keyboard: Keyboard
    matrix: Matrix

    @cached_property
    def network(self) -> Network:
        """Which way current can go."""
        return Network(self.matrix)

    @cached_property
    def uses(self) -> Uses:
        """What the keymap has down together."""
        return Uses(self.keyboard)

    @cached_property
    def used(self) -> tuple[UsedGhost, ...]:
        """The ghosts that the keymap's own combinations make, those of fewest keys first."""
        if not self.network.can_ghost:
            return ()
        ghosts = minimal_ghosts(self.network, self.uses.most_keys)
        uses = ((ghost, self.uses.of(ghost.keys)) for ghost in islice(ghosts, MOST_COUNTED))
        found = [UsedGhost(ghost, use) for ghost, use in uses if use]
        return tuple(sorted(found, key=lambda one: len(one.ghost.pressed)))

    @cached_property
    def smallest_size(self) -> int | None:
        """How many keys the smallest ghost takes; None where there is none."""
        return smallest_ghost_size(self.network)

    @cached_property
    def count(self) -> int:
        """How many sets of keys make a ghost while no part of them does, as far as is counted."""
        return counted_ghosts(self.network, MOST_COUNTED)

    @property
    def counted(self) -> str:
        """That number in words: past what is counted, `more than` it."""
        return f"more than {MOST_COUNTED:,}" if self.count == MOST_COUNTED else f"{self.count:,}"

    @cached_property
    def diodes_for_keymap(self) -> tuple[str, ...]:
        """The fewest keys to give a diode so that the keymap's own combinations make no ghost."""
        return fewest_diodes(self.matrix, self.is_used, self.uses.most_keys)

    @cached_property
    def diodes_for_all(self) -> tuple[str, ...]:
        """The fewest keys to give a diode so that no combination makes a ghost."""
        return fewest_diodes(self.matrix, lambda ghost: True)

    def is_used(self, ghost: Ghost) -> bool:
        """Whether the keymap itself has the keys of a ghost down together."""
        return self.uses.of(ghost.keys) is not None
