"""What is done next: an event, a step of a knob, or a stroke of what is typed in turn."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from matrixgen.behaviour import once
from matrixgen.behaviour.in_turn import NEARLY_FULL, Turn
from matrixgen.behaviour.presses import KeyPresses
from matrixgen.behaviour.state import Event
from matrixgen.behaviour.with_modifier import chosen
from matrixgen.record import changed


@dataclass
class Events(KeyPresses):
    """Keys whose events are done one by one."""

    def next_event(self) -> bool:
        """Do what is next, be it an event or an end that comes before it; false if nothing is."""
        if self.turn is not None:
            return self._go_on_in_turn(self.turn)
        known, lasts_ms = self.edges.known(), self.keyboard.once_ms
        at_ms = known[0].at_ms if known else self.edges.known_until(self.now_ms)
        if known and self._step_goes_on(at_ms):
            return True
        lasts = ceil(lasts_ms.value) if lasts_ms else None
        if once.ends(self.held.values(), self.lasting, lasts, at_ms):
            return True
        if not known:
            return False
        if known[0].down:
            self._gather()
        event = self._goes_first()
        if not event.down:
            self._release(event)
        elif (action := self._decision()[0]) is not None:
            whole = changed(event, key=self.asked(event)[1][0])
            if self._makes_way(whole, action):
                return True
            self._press(whole, action)
        else:
            return False
        self.edges.done(event)
        return True

    def _step_goes_on(self, at_ms: int) -> bool:
        """Let the step that has begun go down, which is no typing to other keys, or else up."""
        key = self.knobs.step
        if key is None:
            return False
        if self.knobs.goes_down():
            action = self.action_of(key)
            self._do_press(Event(key, True, at_ms), action, chosen(action, self._modifiers()))
        else:
            self._release(Event(key, False, at_ms))
        return True

    def _step_begins(self) -> bool:
        """Let the next step go down, or make way for it; false if none waits."""
        key = self.knobs.begin()
        if key is None:
            return False
        event = Event(key, True, self.now_ms)
        return self._makes_way(event, self.action_of(key)) or self._step_goes_on(self.now_ms)

    def _go_on_in_turn(self, turn: Turn) -> bool:
        """Go on with what is typed in turn, or with the key that types it."""
        own = next((event for event in self.edges.known() if event.key == turn.key), None)
        if not self.is_open:
            self.turn = None
        elif own is not None:
            self._own_event(own, turn)
        else:
            if len(self.edges.waiting) >= NEARLY_FULL:
                turn.stop()
            if not turn.go_on(self.now_ms, self.keyboard.effective.pace_ms):
                return False
            self.turn = None if turn.is_over else turn
        return True

    def _own_event(self, event: Event, turn: Turn) -> None:
        """Let the key that types in turn go up, or stop that by a press."""
        if event.down:
            turn.stop()
            self.held[event.key] = turn.action
            self._types_nothing(event.key)
        else:
            self._release(event)
        self.edges.done(event)
