"""What the oldest press means, and whether that is decided."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from matrixgen.behaviour import once
from matrixgen.behaviour.first_second import decided
from matrixgen.behaviour.running_keyboard import RunningKeyboard
from matrixgen.behaviour.state import Event
from matrixgen.behaviour.tap_hold import Decision
from matrixgen.behaviour.together import Gathering, KeySet, other_presses
from matrixgen.model import Action, FirstSecond, Nothing, TapHold
from matrixgen.record import changed


@dataclass
class Decisions(RunningKeyboard):
    """Keys of which the oldest press may be open."""

    def undecided(self) -> Event | None:
        """Return the press of which it is not decided what it means, if there is one."""
        known = self.edges.known()
        return known[0] if known and known[0].down and self._decision()[0] is None else None

    def together(self) -> tuple[KeySet | None, bool]:
        """Return the keys that the oldest press is that of, if several, and if that is decided."""
        if self.gathered is not None:
            return self.gathered
        if not self.edges.known():
            return None, True
        press, *later = self.edges.known()
        if self.counted is not None:
            return None, True
        sets = Gathering(press, self.stack.sets_on(self.layers_on()), self.held.keys())
        return sets.made(later, self.edges.known_until(self.now_ms))

    def _gather(self) -> None:
        """Let the oldest press be that of keys together, once it is decided that it is."""
        press, *later = self.edges.known()
        found, is_decided = self.together()
        if self.gathered is not None or not is_decided:
            return
        self.gathered = (found, True)
        if found is not None:
            for event in other_presses(found, press, later):
                self.edges.done(event)
            self.joined.join(found)
            self.held |= {key: Nothing() for key in found.keys if key != found.presses}

    def asked(self, event: Event) -> tuple[Action, tuple[str, ...]]:
        """Return what the oldest press asks for, before it is decided, and of which keys it is."""
        keys, _ = self.together()
        if keys:
            return keys.action, keys.keys
        counted = self.counted
        return counted.action if counted else self.action_of(event.key), (event.key,)

    def _begins_set(self, press: Event, later: Sequence[Event]) -> bool | None:
        """Whether a press that is not the oldest is that of keys together; None if that is open."""
        sets = Gathering(press, self.stack.sets_on(self.layers_on()), self.held.keys())
        found, is_decided = sets.made(later, self.edges.known_until(self.now_ms))
        return found is not None if is_decided else None

    def _decision(self) -> tuple[Action | None, int]:
        """Return what the oldest press does or None, and for how many events that was open."""
        event, *later = self.edges.known()
        keys, is_decided = self.together()
        if not is_decided:
            return None, 0
        action, own = self.asked(event)
        until_ms = self.edges.known_until(self.now_ms)
        if isinstance(action, FirstSecond):
            before = self.counted.presses if self.counted else 0
            return decided(action, before, event, later, until_ms, self._begins_set)
        if not isinstance(action, TapHold):
            return action, 0
        if self.gathered is None:
            taken = other_presses(keys, event, later)
            later = [one for one in later if one not in taken]
        decision = Decision(action, changed(event, key=own[0]), own, self.lasting, self.hands)
        return decision.made(later, until_ms)

    def _goes_first(self) -> Event:
        """Return the event to do next: the oldest, or one that does not wait for it."""
        first, *later = self.edges.known()
        while_open = later[: self._decision()[1]] if first.down else []
        moved = {first.key}
        for event in while_open:
            was_down = event.key not in moved and not event.down
            if was_down and once.types_only(self.held[self.joined.doer(event.key)]):
                return event
            moved.add(event.key)
        return first
