"""What is known of each phrase: its rule in the grammar, what it looks like, how it is read."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from matrixgen.model.actions import Action, Behaviour
from matrixgen.record import Record

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope

ReadPhrase = Callable[["Scope", Any], Action | None]


class Phrase(Record, kw_only=True):
    """A behaviour's phrase, by the grammar's rule for it, or the terminal if it is a word.

    `form` is the phrase with a capital word where a name goes. `read` returns the action, or None
    where it has reported what is wrong. A rule that several share is read as the first one's
    phrase.
    """

    rule: str
    behaviour: type[Behaviour]
    form: str
    read: ReadPhrase

    @property
    def first_word(self) -> str | None:
        """The word that it begins with, which no action may be called; words for keys have none."""
        word = self.form.split()[0]
        return word if word.islower() else None

    @property
    def is_one_word(self) -> bool:
        """Whether it is that word and nothing more, so that it can stand in a picture."""
        return self.form == self.first_word


def always(action: Action) -> ReadPhrase:
    """Return what reads a phrase that says nothing but this action."""
    return lambda scope, said: action
