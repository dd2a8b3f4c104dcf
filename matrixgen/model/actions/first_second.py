"""A key that does one thing, and others when it is pressed again soon."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from matrixgen.model.actions.behaviour import Behaviour, PressWords

if TYPE_CHECKING:
    from matrixgen.model.actions import Action

WITHIN_MS = 300
MEANINGS: tuple[Literal["first", "second", "third"], ...] = ("first", "second", "third")


class FirstSecond(Behaviour):
    """What a press means is decided by the presses after it.

    Each press within `within_ms` of the one before counts on; the last of them does what stands for
    its number. A press that no other can follow is decided at once.
    """

    first: Action
    second: Action
    third: Action | None = None
    within_ms: int = WITHIN_MS

    def said(self, words: PressWords) -> str:
        """Return `first ACTION, second ACTION`, maybe a third, and the time if it is unusual."""
        parts = zip(MEANINGS, self.parts, strict=False)
        said = [f"{name} {part.said(words)}" for name, part in parts]
        time = [f"within {self.within_ms} ms"] if self.within_ms != WITHIN_MS else []
        return ", ".join([*said, *time])

    @property
    def decides_after_ms(self) -> int | None:
        """The time in which another press has to follow."""
        return self.within_ms

    @property
    def parts(self) -> tuple[Action, ...]:
        """What the first press does, the second, and the third if that does something else."""
        return (self.first, self.second, *([self.third] if self.third else []))
