"""A keyboard and its clock: moves of switches in, what happens out, a millisecond at a time."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator

from matrixgen.behaviour import Event, Machine
from matrixgen.behaviour.pointer import REPORT as POINTER
from matrixgen.behaviour.state import Thing
from matrixgen.computer.setting import key_words, layout_of, press_words
from matrixgen.computer.typing_computer import TypingComputer
from matrixgen.model import LOCKS, Action, FirstSecond, Keyboard
from matrixgen.model.actions.first_second import MEANINGS
from matrixgen.rehearse.happening import (
    Appeared,
    BootLoaderStarts,
    Does,
    Happening,
    KeyMoved,
    LayersOn,
    LightsLit,
    Lingers,
    LockTold,
    Reported,
    Taken,
    TextShown,
    Undecided,
    Waits,
)
from matrixgen.rehearse.movement import Movement
from matrixgen.rehearse.plan import KnobMoved, Moved
from matrixgen.rehearse.report_words import down_in, keyboard_report, media_report
from matrixgen.usages import modifier_names

MOST_SETS = 3
"""Sets of keys that are named where a press may be that of several."""


class Watched(Machine):
    """The model, with a note of each press that something is done about."""

    def __post_init__(self) -> None:
        super().__post_init__()
        self.done: list[Does] = []
        self.words = press_words(layout_of(self.keyboard))

    def open_words(self, press: Event) -> tuple[str, str]:
        """Return the key of a press that is undecided, or the keys, and what it may mean."""
        _, is_decided = self.together()
        if is_decided:
            action, names = self.asked(press)
            return " ".join(names), action.said(self.words)
        return press.key, f"alone, or with {self._others(press.key)}"

    def _others(self, key: str) -> str:
        """Return the keys that may come to one, for each set that has it."""
        sets = (one.keys for one in self.stack.sets_on(self.layers_on()) if key in one.keys)
        free = (keys for keys in sets if self.held.keys().isdisjoint(keys))
        others = [" ".join(name for name in keys if name != key) for keys in free]
        more = f" or {len(others) - MOST_SETS} more" if len(others) > MOST_SETS else ""
        return " or ".join(others[:MOST_SETS]) + more

    def _do_press(self, event: Event, action: Action, done: Action) -> None:
        decided, does = self._taken_for(event, action, done)
        _, keys = self.asked(event)
        self.done.append(Does(self.now_ms, " ".join(keys), does, decided))
        super()._do_press(event, action, done)

    def _taken_for(self, event: Event, action: Action, done: Action) -> tuple[Taken | None, str]:
        """Return what a press was decided to be, if it was to be decided, and what it does."""
        asked, _ = self.asked(event)
        place = self.counted.presses if self.counted else 0
        if action is asked and isinstance(action, FirstSecond):
            return None, f"the {MEANINGS[place]} press only counted"
        decided: Taken | None = None
        if isinstance(asked, FirstSecond):
            decided = MEANINGS[place]
        elif action is not asked:
            decided = "tap" if action is asked.parts[0] else "hold"
        return decided, done.said(self.words)


class Rehearsal:
    """A keyboard that is played; the host takes each report at once.

    Where the file names the computer's layout, there is a `computer`: it writes, and tells its
    locks.
    """

    def __init__(self, keyboard: Keyboard) -> None:
        layout = layout_of(keyboard)
        self.machine = Watched(keyboard)
        self.computer = TypingComputer(layout) if layout else None
        self._key_word = key_words(layout)
        self._told = 0
        self._hear()
        self.now_ms = 0
        self.has_ended = False
        self._moves: deque[Moved] = deque()
        self._lights: tuple[str, ...] = ()
        self._layers = tuple(self.machine.layers_on())
        self._lingers = Lingers(0, (), ())
        self._undecided: tuple[str, str] | None = None
        self._movement = Movement()

    def plan(self, moves: Iterable[Moved]) -> None:
        """Let all of it happen, none earlier than what is planned already."""
        self._moves.extend(moves)

    @property
    def planned(self) -> tuple[Moved, ...]:
        """What switches and knobs are still to do."""
        return tuple(self._moves)

    @property
    def is_settled(self) -> bool:
        """Whether all that moved has had its effect, but for what waits for a decision."""
        edges = self.machine.edges
        counted = edges.settled == len(edges.waiting) and self.machine.turn is None
        if not edges.waiting and not self.machine.knobs.are_done:
            return False
        return counted and (not edges.waiting or self.machine.undecided() is not None)

    def tick(self) -> list[Happening]:
        """Let one millisecond happen, and return what did."""
        moved = self._move()
        self.machine.now_ms = self.now_ms
        self.machine.step()
        taken = self.machine.take()
        pressed, self.machine.done = self.machine.done, []
        found: list[Happening] = [*moved, *pressed, *self._decisions(moved), *self._changes()]
        if taken is not None:
            found += [
                Reported(self.now_ms, keyboard_report(taken, self._key_word)),
                *self._written(taken),
            ]
        found += self._of_others()
        if self.machine.lasting.boot_loads:
            self.has_ended = True
            found.append(BootLoaderStarts(self.now_ms, bool(self._moves)))
        self.now_ms += 1
        return found

    def _of_others(self) -> Iterator[Reported]:
        """Yield what leaves by the second interface; of a pointer what its reports add up to."""
        taken = self.machine.take_media()
        moved = self._movement.pass_time(self.now_ms)
        if taken is not None and taken[0] != POINTER:
            yield Reported(self.now_ms, media_report(taken, self.machine.media))
        elif taken is not None:
            if moved:
                yield Reported(self.now_ms, moved)
            moved = self._movement.take(taken, self.now_ms)
        if moved:
            yield Reported(self.now_ms, moved)

    def movement(self) -> Reported | None:
        """Return what the pointer moved that was not told of yet."""
        moved = self._movement.rest()
        return Reported(self.now_ms - 1, moved) if moved else None

    def text(self) -> TextShown | None:
        """Return the computer's text; None where no file says what it writes, or it is empty."""
        field = self.computer.field if self.computer else None
        return TextShown(self.now_ms, field.before, field.after) if field and field.text else None

    def _written(self, taken: bytes) -> Iterator[Appeared]:
        """Let the computer have a report of the keyboard, and yield what it writes."""
        if self.computer is None:
            return
        waited = self.computer.waits
        written = self.computer.take(*down_in(taken))
        waits = self.computer.waits
        if written or (waits and waits != waited):
            yield Appeared(self.now_ms, written, waits)
        self._hear()

    def _hear(self) -> None:
        """Let the keyboard hear of the computer's locks."""
        if self.computer is not None:
            self.machine.leds = self.computer.leds ^ self._told

    def _move(self) -> list[KeyMoved | LockTold]:
        moved: list[KeyMoved | LockTold] = []
        while self._moves and self._moves[0].at_ms <= self.now_ms:
            move = self._moves.popleft()
            if isinstance(move, KnobMoved):
                self.machine.knobs.turn(move.knob, move.way)
            elif isinstance(move, LockTold):
                self._tell(move)
                moved.append(move)
            else:
                self.machine.closed ^= {move.key}
                moved.append(move)
        return moved

    def _tell(self, told: LockTold) -> None:
        """Let a lock change, as by a key of another keyboard; of those, a layout has two."""
        bit = 1 << LOCKS.index(told.lock)
        if self.computer is not None and self.computer.turn(bit):
            self._hear()
            return
        self._told ^= bit
        self.machine.leds ^= bit

    def _decisions(self, moved: Iterable[KeyMoved | LockTold]) -> Iterator[Undecided | Waits]:
        """Yield the press that has become undecided, and those that have come to wait for it."""
        before, press = self._undecided, self.machine.undecided()
        now = self.machine.open_words(press) if press else None
        self._undecided = now
        if now is None:
            return
        if now != before:
            yield Undecided(self.now_ms, *now)
        behind = {event.key for event in self.machine.edges.known()[1:] if event.down}
        for move in moved:
            if isinstance(move, KeyMoved) and move.down and move.key in behind:
                yield Waits(self.now_ms, move.key, now[0])

    def _changes(self) -> Iterator[LayersOn | Lingers | LightsLit]:
        layers = tuple(self.machine.layers_on())
        if layers != self._layers:
            self._layers = layers
            yield LayersOn(self.now_ms, layers)
        lit = self.machine.lit()
        every = (light.name.text for light in self.machine.keyboard.wiring.lights)
        lights = tuple(name for name in every if name in lit)
        if lights != self._lights:
            self._lights = lights
            yield LightsLit(self.now_ms, lights)
        lasting = self.machine.lasting
        next_key = set(lasting.for_next_key())
        lingers = (_names(next_key), _names(lasting.waiting.keys() - next_key))
        if lingers != (self._lingers.next_key, self._lingers.pressed_again):
            self._lingers = Lingers(self.now_ms, *lingers)
            yield self._lingers


def _names(things: Iterable[Thing]) -> tuple[str, ...]:
    """Return layers by their names, then modifiers by theirs."""
    kept = set(things)
    layers = sorted(f"layer {thing}" for thing in kept if isinstance(thing, str))
    return (*layers, *modifier_names(sum(thing for thing in kept if isinstance(thing, int))))
