"""All that there is to say of a keyboard's ghosts."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from matrixgen.circuit.combinations import Uses
from matrixgen.circuit.fewest_diodes import fewest_against, fewest_diodes
from matrixgen.circuit.ghosts import Ghost, counted_ghosts, smallest_ghost_size
from matrixgen.circuit.network import Network
from matrixgen.circuit.used_ghosts import UsedGhost, used_ghosts
from matrixgen.model import Keyboard, Matrix
from matrixgen.record import Record

MOST_COUNTED = 10_000
"""Sets of keys that are counted; a matrix of 110 keys without diodes has about as many."""


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
        return used_ghosts(self.network, self.uses)

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
        return fewest_against(self.matrix, self._used_in)

    @cached_property
    def diodes_for_all(self) -> tuple[str, ...]:
        """The fewest keys to give a diode so that no combination makes a ghost."""
        return fewest_diodes(self.matrix, lambda ghost: True)

    def _used_in(self, network: Network) -> Iterator[Ghost]:
        return (one.ghost for one in used_ghosts(network, self.uses))

    def is_used(self, ghost: Ghost) -> bool:
        """Whether the keymap itself has the keys of a ghost down together."""
        return self.uses.of(ghost.keys) is not None
