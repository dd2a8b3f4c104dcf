"""What is known of each phrase: its rule in the grammar, what it looks like, how it is read."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from matrixgen.model.actions import Action, Behaviour
from matrixgen.record import Record

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope


class Phrase(Record, kw_only=True):
    """A behaviour's phrase, by the grammar's rule for it, or the terminal if it is a word.

    `form` is the phrase with a capital word where a name goes. `first_word` is the word that it
    begins with, which no action may be called; words for keys have none. `read` returns the action,
    or None where it has reported what is wrong. A rule that several share is read as the first
    one's phrase.
    """

    rule: str
    behaviour: type[Behaviour]
    form: str
    first_word: str | None
    read: Callable[[Scope, Any], Action | None]

    @property
    def is_one_word(self) -> bool:
        """Whether it is that word and nothing more, so that it can stand in a picture."""
        return self.form == self.first_word
