"""A key with two meanings.

What a press means is decided from the events after it, in their order, and from time. Both are
decided by first readings: how long a release takes to settle, and how slow the host is, makes no
difference. Until then the press and what follows it wait, except the release of a key that was down
before and only types, which goes first.
"""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.behaviour.state import Event, Lasting
from matrixgen.model import Action, TapHold
from matrixgen.model.hands import Hand, same_hand


class Decision:
    """One press of such a key."""

    def __init__(
        self,
        action: TapHold,
        event: Event,
        own: Sequence[str],
        lasting: Lasting,
        hands: dict[str, Hand | None],
    ) -> None:
        """`own` are the keys that were pressed: the event's, or all of a set."""
        self.action, self.event, self.own = action, event, own
        self.lasting, self.hands = lasting, hands

    def made(self, later: Sequence[Event], until_ms: int) -> tuple[Action | None, int]:
        """Return what the press does, None while that is open, and how many events it was open for.

        `later` has every event after it that happened before `until_ms`.
        """
        if self._rolls() or self._repeats():
            return self.action.tap, 0
        ends_ms = self.event.at_ms + self.action.after_ms
        for place, event in enumerate(later):
            if event.at_ms >= ends_ms:
                return self.action.hold, place
            if event.key in self.own or self._is_own_hand(event):
                return self.action.tap, place
            if self._makes_hold(event, later[:place]):
                return self.action.hold, place
        return (self.action.hold if until_ms >= ends_ms else None), len(later)

    def _rolls(self) -> bool:
        """Whether it follows too soon on another key that typed."""
        typed = self.lasting.typed
        if typed is None or typed.key == self.event.key:
            return False
        return self.event.at_ms - typed.pressed_ms < self.action.roll_ms

    def _repeats(self) -> bool:
        """Whether its own tap typed last and was let go just before: then it is tapped again."""
        typed = self.lasting.typed
        if typed is None or typed.key != self.event.key or typed.let_go_ms is None:
            return False
        if typed.tap_of != self.action:
            return False
        return self.event.at_ms - typed.let_go_ms < self.action.after_ms

    def _is_own_hand(self, event: Event) -> bool:
        """Whether it is the press of a key that this one has to leave alone."""
        same = same_hand(self.hands[self.event.key], self.hands[event.key])
        return self.action.other_hand and event.down and same

    def _makes_hold(self, event: Event, before: Sequence[Event]) -> bool:
        """Whether another key's event decides for the hold."""
        if self.action.decided_by == "press":
            return event.down
        went_down = any(other.key == event.key and other.down for other in before)
        return self.action.decided_by == "release" and not event.down and went_down
