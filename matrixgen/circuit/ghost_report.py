"""All that there is to say of a keyboard's ghosts."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from matrixgen.circuit.combinations import Uses
from matrixgen.circuit.effort import Effort
from matrixgen.circuit.fewest_diodes import fewest_against, fewest_diodes
from matrixgen.circuit.ghosts import Ghost, counted_ghosts, smallest_ghost_size
from matrixgen.circuit.network import Network
from matrixgen.circuit.used_ghosts import UsedGhost, used_ghosts
from matrixgen.model import Keyboard, Matrix
from matrixgen.record import Record

MOST_COUNTED = 10_000
"""Sets of keys that are counted; a matrix of 110 keys without diodes has about as many."""


class MoreDiodes(Record):
    """Keys to give a diode so that ghosts end, and whether no fewer would do."""

    keys: tuple[str, ...]
    are_fewest: bool


class GhostReport(Record):
    """A keyboard and its matrix, asked for its ghosts; the answers are worked out when wanted.

    Each is searched for with an effort of its own. Where that is spent, the answer is what was
    found until then, and there may be more; diodes are then given to all keys that have none.
    """

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

    @property
    def used(self) -> tuple[UsedGhost, ...]:
        """The ghosts that the keymap's own combinations make, those of fewest keys first."""
        return self._search_for_used[0]

    @property
    def has_all_used(self) -> bool:
        """Whether these are all."""
        return self.uses.is_complete and not self._search_for_used[1].is_spent

    @cached_property
    def _search_for_used(self) -> tuple[tuple[UsedGhost, ...], Effort]:
        effort = Effort()
        return used_ghosts(self.network, self.uses, effort), effort

    @property
    def smallest_size(self) -> int | None:
        """How many keys the smallest ghost takes; None where there is none."""
        return self._search_for_smallest[0]

    @property
    def is_smallest(self) -> bool:
        """Whether no ghost takes fewer keys than that."""
        return self.smallest_size == 3 or not self._search_for_smallest[1].is_spent

    @cached_property
    def _search_for_smallest(self) -> tuple[int | None, Effort]:
        effort = Effort()
        return smallest_ghost_size(self.network, effort), effort

    @property
    def count(self) -> int:
        """How many sets of keys make a ghost while no part of them does, as far as is counted."""
        return self._search_for_count[0]

    @cached_property
    def _search_for_count(self) -> tuple[int, Effort]:
        effort = Effort()
        return counted_ghosts(self.network, MOST_COUNTED, effort), effort

    @property
    def counted(self) -> str:
        """That number in words: past what is counted, `more than` it."""
        is_more = self.count == MOST_COUNTED or self._search_for_count[1].is_spent
        return f"more than {self.count:,}" if is_more else f"{self.count:,}"

    @cached_property
    def for_keymap(self) -> MoreDiodes:
        """Those with which the keymap's own combinations make no ghost."""
        effort = Effort()

        def used_in(network: Network) -> Iterator[Ghost]:
            return (one.ghost for one in used_ghosts(network, self.uses, effort))

        return MoreDiodes(fewest_against(self.matrix, used_in, effort), not effort.is_spent)

    @cached_property
    def for_all(self) -> MoreDiodes:
        """Those with which no combination makes a ghost."""
        effort = Effort()
        return MoreDiodes(
            fewest_diodes(self.matrix, lambda ghost: True, effort), not effort.is_spent
        )

    def is_used(self, ghost: Ghost) -> bool:
        """Whether the keymap itself has the keys of a ghost down together."""
        return self.uses.of(ghost.keys) is not None
