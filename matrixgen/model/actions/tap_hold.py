"""A key with two meanings: one when it is tapped, one when it is held."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from matrixgen.model.actions.behaviour import Behaviour, PressWords

if TYPE_CHECKING:
    from matrixgen.model.actions import Action

Decider = Literal["time", "press", "release"]
"""What makes a hold of a press, besides time: nothing, another key that goes down, one that goes
down and up."""

AFTER_MS = 200
ROLL_MS = 100


class TapHold(Behaviour):
    """What a press means is decided after it: a tap or a hold.

    It is a hold once the key has been down for `after_ms`, or earlier by what `decided_by` says.
    A press within `roll_ms` of the press of another key is a tap at once; 0 for never. With
    `other_hand`, a key of the same hand makes a tap of it and never a hold.
    """

    tap: Action
    hold: Action
    after_ms: int = AFTER_MS
    decided_by: Decider = "release"
    roll_ms: int = ROLL_MS
    other_hand: bool = False

    def said(self, words: PressWords) -> str:
        """Return `tap ACTION, hold ACTION`, and what differs from the usual."""
        hold = self.hold.said(words).removeprefix("hold ")
        options = [
            f", after {self.after_ms} ms" if self.after_ms != AFTER_MS else "",
            f", by {self.decided_by}" if self.decided_by != "release" else "",
            f", roll {self.roll_ms} ms" if self.roll_ms != ROLL_MS else "",
            ", other hand" if self.other_hand else "",
        ]
        return f"tap {self.tap.said(words)}, hold {hold}{''.join(options)}"

    @property
    def decides_after_ms(self) -> int | None:
        """The time after which a press is a hold, whatever else happens."""
        return self.after_ms

    @property
    def heeds_hands(self) -> bool:
        """Whether only a key of the other hand makes a hold of it."""
        return self.other_hand

    @property
    def parts(self) -> tuple[Action, ...]:
        """What a tap does, and what a hold does."""
        return (self.tap, self.hold)
