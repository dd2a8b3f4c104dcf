"""The keyboard, from closed switches to reports: what it must do, worked out anew at each step."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import ceil

from matrixgen.behaviour import once
from matrixgen.behaviour.behaviours import held_by, press_key
from matrixgen.behaviour.combination import Combination
from matrixgen.behaviour.edges import Edges, delays_ms
from matrixgen.behaviour.first_second import Counted, decided
from matrixgen.behaviour.in_turn import CAPS_LOCK_LED, NEARLY_FULL, Turn
from matrixgen.behaviour.knobs import Knobs
from matrixgen.behaviour.media_reports import MediaReports
from matrixgen.behaviour.pointer import PointerReports
from matrixgen.behaviour.reports import LastReport, report_of
from matrixgen.behaviour.scan_order import scan_order
from matrixgen.behaviour.stack import LayerStack
from matrixgen.behaviour.state import Event, Held, Lasting, Typing
from matrixgen.behaviour.tap_hold import Decision
from matrixgen.behaviour.together import Gathering, JoinedKeys, KeySet, other_presses
from matrixgen.behaviour.with_modifier import Hidden, chosen, hidden_by
from matrixgen.model import (
    BASE,
    LOCKS,
    Action,
    FirstSecond,
    InTurn,
    Keyboard,
    Light,
    Media,
    Nothing,
    Pointer,
    Press,
    TapHold,
)
from matrixgen.model.hands import hands_of
from matrixgen.model.speeds import POINTER_SPEED, WHEEL_SPEED, speed_of
from matrixgen.record import changed


@dataclass
class Machine:
    """A keyboard that runs: change `closed`, move `now_ms` on, `step`, and `take` its reports.

    `kept` is the layer that it was changed to before it last lost power, `leds` the last output
    report of the host. `held` has what each key does that is down; of those that are `joined` in a
    set, the first one does all. `gathered` is what `Gathering` made of the oldest press, once that
    is decided.
    """

    keyboard: Keyboard
    now_ms: int = 0
    closed: set[str] = field(default_factory=set)
    is_open: bool = True
    boot: bool = False
    leds: int = 0

    held: dict[str, Action] = field(default_factory=dict)
    joined: JoinedKeys = field(default_factory=JoinedKeys)
    gathered: tuple[KeySet | None, bool] | None = None
    lasting: Lasting = field(default_factory=Lasting)
    turn: Turn | None = None
    hidden: Hidden | None = None
    counted: Counted | None = None
    waiting: bytes | None = None
    last_report: LastReport = field(default_factory=LastReport)
    kept: str = BASE

    def __post_init__(self) -> None:
        self.lines = scan_order(self.keyboard)
        self.scanned = [key for line in self.lines for key in line]
        self.edges = Edges(delays_ms(self.keyboard))
        self.hands = hands_of(self.keyboard.plate)
        names = [key.name.text for key in self.keyboard.keys]
        self.stack = LayerStack(self.keyboard.layers, names)
        self.combination = Combination(
            [word.text for word in self.keyboard.boot_loader.hold], self.edges.delays_ms[False]
        )
        every = self.keyboard.every_action
        self.media = MediaReports(
            {(action.page, action.usage) for action in every if isinstance(action, Media)}
        )
        self.knobs = Knobs.of(self.keyboard.knobs)
        self.pointer = PointerReports(
            (
                speed_of(self.keyboard.pointer, POINTER_SPEED),
                speed_of(self.keyboard.wheel, WHEEL_SPEED),
            )
        )
        if self.keyboard.remember_base:
            self.lasting.lowest = self.kept

    # --- the switches ---

    def scan(self) -> bool:
        """One scan, line by line; true if a key was newly pressed."""
        self.knobs.read()
        self.pointer.pass_time(self.now_ms)
        moved = self.closed ^ self.edges.closed
        lines = [[key for key in line if key in moved] for line in self.lines] if moved else []
        pressed = [self._scan_line(keys) for keys in lines if keys]
        self._catch_up()
        self._turn_knobs()
        return any(pressed)

    def _scan_line(self, keys: list[str]) -> bool:
        """Read one line; what it tells is done and reported before the next one is read."""
        edges = [self.edges.read(key, key in self.closed, self.now_ms) for key in keys]
        self._catch_up()
        return any(edges)

    def watch_combination(self) -> None:
        """Where the keys that start the boot loader are down, see how long they have been."""
        if self.combination.starts(self.edges.closed, self.now_ms):
            self.lasting.boot_loads += 1

    # --- layers ---

    def layers_on(self) -> list[str]:
        """From the top down; the last ones are the changed base, if there is one, and the base."""
        on = held_by(self.held.values()).layers | self.lasting.layers
        return self.stack.on(on, self.lasting.lowest)

    def lit(self) -> frozenset[str]:
        """Return the lights that are lit: none while nobody listens."""
        on = frozenset({BASE, *self.layers_on()} if self.is_open else ())
        lights = self.keyboard.wiring.lights
        return frozenset(light.name.text for light in lights if self._is_lit(light, on))

    def _is_lit(self, light: Light, on: frozenset[str]) -> bool:
        if not on:
            return False
        if light.lock:
            return bool(self.leds >> LOCKS.index(light.lock) & 1)
        return on >= {word.text for word in light.layers}

    def action_of(self, key: str) -> Action:
        """Return what a key would do if it went down now."""
        return self.stack.action_of(key, self.layers_on())

    # --- events ---

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

    # --- knobs ---

    def _turn_knobs(self) -> None:
        """Let a step of a knob go on, or the next one begin: once a scan, if all else is done."""
        is_heard = self.is_open and self.waiting is None and not self._others_hold()
        if not is_heard or self.edges.waiting or self.turn is not None:
            return
        if self._step_goes_on(self.now_ms) or self._step_begins():
            self._catch_up()

    def _step_begins(self) -> bool:
        """Let the next step go down, or make way for it; false if none waits."""
        key = self.knobs.begin()
        if key is None:
            return False
        event = Event(key, True, self.now_ms)
        return self._makes_way(event, self.action_of(key)) or self._step_goes_on(self.now_ms)

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

    def _begin_turn(self, key: str, action: InTurn) -> None:
        """Let a key type in turn, and every key that holds a usage be over."""
        for other, held in self.held.items():
            if isinstance(held, Pointer) or (isinstance(held, Press) and held.usage):
                self.held[other] = action
        self.lasting.used = 0
        is_caps_on = bool(self.leds & CAPS_LOCK_LED)
        self.turn = Turn(key, action, self.now_ms, action.types_text and is_caps_on)

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

    # --- the host ---

    def _modifiers(self) -> int:
        """Return the modifiers that the next key that types is sent with."""
        return held_by(self.held.values()).modifiers | self.lasting.next_modifiers

    def what_is_down(self) -> Held:
        """Return what keys hold, with what `once` keys have left on, or what is typed in turn."""
        held = held_by(self.held.values())
        held.modifiers |= self.lasting.modifiers
        if self.hidden is not None:
            held.modifiers &= ~self.hidden.modifiers
        if self.turn is not None:
            held.usages, held.modifiers = self.turn.held.usages, self.turn.held.modifiers
        return held

    def report(self, boot: bool) -> bytes:
        """Return the report of what is down now."""
        return report_of(self.what_is_down(), boot)

    def _tells(self) -> bool:
        """Give a report of what is down, if it is news; whether one now waits to be taken."""
        down = self.what_is_down()
        report = report_of(down, self.boot)
        if self.last_report.is_news(report, self.boot):
            self.waiting = report
            return True
        return self._tells_of_others(down) or self._others_hold()

    def _tells_of_others(self, down: Held) -> bool:
        """Give a report of media keys or of the pointer's buttons, if it is news."""
        if self.media.give(down.media, self.boot):
            self.pointer.only_moves = self.pointer.changed = False
            return True
        if self.boot or self.media.waiting is not None:
            self.pointer.doubtful |= self.boot
            return False
        is_news = self.pointer.is_news
        self.pointer.doubtful = False
        if is_news:
            self.media.waiting = self.pointer.give(only_moves=False)
        return is_news

    def _others_hold(self) -> bool:
        """Whether keys wait for a report there to be taken: not for one that only moves."""
        only_moves = self.pointer.only_moves and not self.pointer.changed
        return self.media.waiting is not None and not only_moves

    def _move_pointer(self) -> None:
        """Report what is due of the pointer's movement, if there is room for it."""
        if not self.is_open or self.boot:
            self.pointer.not_heard()
        elif self.media.waiting is None and self.pointer.moves:
            self.media.waiting = self.pointer.give(only_moves=True)

    def _catch_up(self) -> None:
        """Do as many events as the host takes reports."""
        self.edges.settle(self.now_ms)
        if not self.is_open:
            while self.next_event():
                pass
            self.knobs.forget()
            while self._step_goes_on(self.edges.known_until(self.now_ms)):
                pass
            self.last_report.doubtful = self.media.doubtful = True
        elif self.waiting is None:
            while not self._tells() and self.next_event():
                pass
        self._move_pointer()

    def step(self) -> bool:
        """One scan, and what there is to do by then; true if a key was pressed."""
        pressed = self.scan()
        self.watch_combination()
        return pressed

    def take(self) -> bytes | None:
        """Return the report that waits for the host, and let it go."""
        taken, self.waiting = self.waiting, None
        return taken

    def take_media(self) -> bytes | None:
        """Return the report of media keys that waits for the host, and let it go."""
        taken, self.media.waiting = self.media.waiting, None
        return taken
