"""What a key does that goes down, and what ends with its release."""

from __future__ import annotations

from dataclasses import dataclass

from matrixgen.behaviour import once
from matrixgen.behaviour.behaviours import held_by, press_key
from matrixgen.behaviour.decisions import Decisions
from matrixgen.behaviour.first_second import Counted
from matrixgen.behaviour.in_turn import CAPS_LOCK_LED, Turn
from matrixgen.behaviour.state import Event, Held, Typing
from matrixgen.behaviour.with_modifier import chosen, hidden_by
from matrixgen.model import Action, FirstSecond, InTurn, Nothing, Pointer, Press, TapHold
from matrixgen.record import changed


@dataclass
class KeyPresses(Decisions):
    """Keys that do what they are decided to do."""

    def _makes_way(self, event: Event, action: Action) -> bool:
        """Before a key types, end what another one hides, then hide what this one does."""
        if not once.types_something(action):
            return False
        if self.hidden is None:
            self.hidden = hidden_by(event.key, action, self._modifiers())
            return self.hidden is not None
        if self.hidden.key == event.key:
            return False
        before = held_by(self.held.values())
        self.held[self.hidden.key] = self.hidden.action
        self._hold(before)
        once.key_is_up(self.hidden.key, self.lasting)
        self.hidden = None
        return True

    def _press(self, event: Event, action: Action) -> None:
        done = chosen(action, self._modifiers())
        if once.types_something(action):
            asked, _ = self.asked(event)
            tap_of = asked if isinstance(asked, TapHold) and asked.tap == action else None
            self.lasting.typed = Typing(event.key, event.at_ms, tap_of)
        else:
            self._types_nothing(event.key)
        self._do_press(event, action, done)
        before = self.counted.presses if self.counted else 0
        self.counted = None
        if isinstance(done, FirstSecond):
            self.counted = Counted(event.key, done, before + 1)

    def _do_press(self, event: Event, action: Action, done: Action) -> None:
        """Let a key go down that the layers give an action, of which it does one."""
        before = held_by(self.held.values())
        if once.types_something(action):
            once.use(event, self.lasting)
        self.held[event.key] = done
        self.gathered = None
        press_key(done, self.lasting)
        if isinstance(done, InTurn):
            self._begin_turn(event.key, done)
        self._hold(before)

    def _hold(self, before: Held) -> None:
        """Let what is down on the second interface be what keys hold, which was this before."""
        now = held_by(self.held.values())
        self.pointer.hold(now.pointer)
        self.pointer.changed |= now.media != before.media

    def _types_nothing(self, key: str) -> None:
        """Note that a key's next release is no longer that of what it typed."""
        if (typed := self.lasting.typed) and typed.key == key:
            typed.tap_of = None

    def _release(self, event: Event) -> None:
        """Let a key go up, and what it does; the first one of a set ends what all of them do."""
        doer = self.joined.leave(event.key)
        if doer is not None:
            self._let_go(changed(event, key=doer))
            self.held[doer] = Nothing()
        del self.held[event.key]

    def _let_go(self, event: Event) -> None:
        if self.hidden and self.hidden.key == event.key:
            self.hidden = None
        before = held_by(self.held.values())
        if things := once.things_of(self.held.pop(event.key)):
            for other in self.held.values():
                things -= once.things_of(other)
            once.release(things, self.lasting, event.at_ms)
        self._hold(before)
        once.key_is_up(event.key, self.lasting)
        typed = self.lasting.typed
        if typed is not None and typed.key == event.key:
            typed.let_go_ms = event.at_ms

    def _begin_turn(self, key: str, action: InTurn) -> None:
        """Let a key type in turn, and every key that holds a usage be over."""
        for other, held in self.held.items():
            if isinstance(held, Pointer) or (isinstance(held, Press) and held.usage):
                self.held[other] = action
        self.lasting.used = 0
        is_caps_on = bool(self.leds & CAPS_LOCK_LED)
        self.turn = Turn(key, action, self.now_ms, action.types_text and is_caps_on)
