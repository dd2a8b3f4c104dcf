"""A dialogue that begins with the question whether to go on from what was kept of the last one."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Generic, Protocol, TypeVar

from matrixgen.bench.dialogues.answers import MakerAnswers, command_in
from matrixgen.jobs.kept_session import KeptSession
from matrixgen.model.prose import counted

Closed = TypeVar("Closed", contravariant=True)
Taken = TypeVar("Taken")

ANEW, STOP = "anew", "stop"
CHOICE = f"Enter goes on with them; type :{ANEW} to begin again, as after any soldering"


class Dialogue(Protocol[Closed]):
    """What is asked of the maker, and what is said of the answers."""

    def begins(self) -> Iterator[str]:
        """Yield what to say first."""

    def pressed(self, closed: Closed, /) -> Iterator[str]:
        """Take what a press closes."""

    def typed(self, text: str, /) -> Iterator[str]:
        """Take a line that was typed."""

    def take_up(self, answers: MakerAnswers, /) -> None:
        """Go on from earlier answers."""

    @property
    def answers(self) -> MakerAnswers:
        """What was answered so far."""

    @property
    def marks(self) -> dict[str, str]:
        """What stands at each key of the plate."""

    @property
    def is_over(self) -> bool:
        """Whether nothing more is asked."""

    @property
    def holds(self) -> bool:
        """Whether a key that joins one that is held down counts."""

    @property
    def is_unplugged(self) -> bool:
        """Whether only typed lines are waited for, and the bench may go away."""


class GoingOn(Generic[Taken]):
    """A dialogue, all of whose answers are kept; it may be taken up where it was left."""

    def __init__(
        self,
        dialogue: Dialogue[Taken],
        kept: KeptSession,
        keys: Collection[str],
        pins: Collection[str],
    ) -> None:
        self._dialogue, self._kept, self._keys = dialogue, kept, keys
        found = kept.read()
        self._offer = found[0].of_keys(keys, pins) if found else None
        self._when = found[1] if found else ""
        self.is_stopped = False

    @property
    def is_over(self) -> bool:
        """Whether nothing more is asked."""
        return self.is_stopped or (self._offer is None and self._dialogue.is_over)

    def begins(self) -> Iterator[str]:
        """Yield what to say first."""
        if self._offer is None:
            yield from self._dialogue.begins()
            return
        keys = counted(len(self._offer.closes), "key")
        yield f"{keys} of {len(self._keys)} are kept from {self._when}"
        yield CHOICE

    def pressed(self, closed: Taken) -> Iterator[str]:
        """Take what a press closes."""
        if self._offer is not None:
            yield f"before you press a key: {CHOICE}"
            return
        yield from self._dialogue.pressed(closed)
        self._kept.write(self._dialogue.answers)

    def typed(self, text: str) -> Iterator[str]:
        """Take a line that was typed."""
        if self._offer is None:
            yield from self._dialogue.typed(text)
            self._kept.write(self._dialogue.answers)
            return
        command = command_in(text, (ANEW, STOP), ())
        if command == STOP:
            self.is_stopped = True
        elif text.strip() and command != ANEW:
            yield CHOICE
        else:
            if command is None:
                self._dialogue.take_up(self._offer)
            self._offer = None
            yield from self._dialogue.begins()
