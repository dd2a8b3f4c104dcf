"""What a cell may hold: the names of the block `actions`, the words for usages, and phrases."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from matrixgen.model.actions import Action
from matrixgen.source.phrases import FIRST_WORDS, READ_AS
from matrixgen.source.phrases.scope import Scope

if TYPE_CHECKING:
    from matrixgen.source.letters import Letters
    from matrixgen.source.reporter import Reporter
    from matrixgen.source.syntax import Node, Token


class Vocabulary(Scope):
    """The words and phrases that one file may use for what a key does."""

    def __init__(
        self, reporter: Reporter, names: Iterable[str], layers: Iterable[str], letters: Letters
    ) -> None:
        """`names` are those that the block `actions` defines, `layers` all of the file's."""
        super().__init__(reporter, names, layers, letters)
        self._actions: dict[str, Action | None] = {}
        self._read: dict[str, Action] = {}

    def define(self, name: str, action: Action | None) -> None:
        """Let cells use `name`; None where its own definition was reported."""
        self._actions[name] = action

    def begins_phrase(self, word: str) -> bool:
        """Whether a word can only be the first one of a phrase that has more."""
        phrase = FIRST_WORDS.get(word)
        return phrase is not None and not phrase.is_one_word and not self.knows(word)

    def action_of(self, cell: Token | Node) -> Action | None:
        """Return what a cell does; report it and return None where it makes no sense."""
        if not isinstance(cell, str):
            return self.phrase_of(cell)
        found = self._read.get(cell)
        if found is None:
            found = self._actions[cell] if cell in self._actions else self.phrase_of(cell)
            if found is not None:
                self._read[str(cell)] = found
        return found

    def phrase_of(self, said: Token | Node) -> Action | None:
        """Return what a phrase does that is no name of the block `actions`, or report it."""
        if not isinstance(said, str):
            return READ_AS[said.data].read(self, said)
        phrase = FIRST_WORDS.get(said)
        if phrase and phrase.is_one_word:
            return phrase.read(self, said)
        return READ_AS["CELL"].read(self, said)
