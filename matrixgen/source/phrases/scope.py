"""What a phrase may refer to in the file that it stands in."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from matrixgen.model.actions import Action, InTurn
    from matrixgen.source.letters import Letters
    from matrixgen.source.reporter import Reporter
    from matrixgen.source.syntax import Node, Token


class Scope:
    """The names of actions and layers that a file has, and where its mistakes are reported."""

    def __init__(
        self, reporter: Reporter, names: Iterable[str], layers: Iterable[str], letters: Letters
    ) -> None:
        """`names` are those that the block `actions` defines, `layers` all of the file's.

        `rules` has the grammar's rule for each of those names whose action is a phrase. `strokes`
        counts those of `turns`.
        `tap_hold` has the times, by their fields, that a key with two meanings has unless it says
        others.
        """
        self.reporter = reporter
        self.letters = letters
        self.names = frozenset(names)
        self.layers = tuple(layers)
        self.rules: dict[str, str] = {}
        self.turns: set[InTurn] = set()
        self.strokes = 0
        self.tap_hold: dict[str, int] = {}

    def knows(self, name: str) -> bool:
        """Whether `name` is an action's."""
        return name in self.names

    def action_of(self, cell: Token | Node) -> Action | None:
        """Return what a word or a phrase does; report it and return None where it is wrong."""
        raise NotImplementedError
