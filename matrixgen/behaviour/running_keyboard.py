"""What a keyboard that runs has: its keys, layers and lights, and what is down."""

from __future__ import annotations

from dataclasses import dataclass, field

from matrixgen.behaviour.behaviours import held_by
from matrixgen.behaviour.combination import Combination
from matrixgen.behaviour.edges import Edges, delays_ms
from matrixgen.behaviour.first_second import Counted
from matrixgen.behaviour.in_turn import Turn
from matrixgen.behaviour.knobs import Knobs
from matrixgen.behaviour.media_reports import MediaReports
from matrixgen.behaviour.pointer import PointerReports
from matrixgen.behaviour.reports import LastReport
from matrixgen.behaviour.scan_order import scan_order
from matrixgen.behaviour.stack import LayerStack
from matrixgen.behaviour.state import Held, Lasting
from matrixgen.behaviour.together import JoinedKeys, KeySet
from matrixgen.behaviour.with_modifier import Hidden
from matrixgen.model import BASE, LOCKS, Action, Keyboard, Light, Media
from matrixgen.model.hands import hands_of
from matrixgen.model.speeds import POINTER_SPEED, WHEEL_SPEED, speed_of


@dataclass
class RunningKeyboard:
    """Which switches are `closed`, at which time, what each key does, and what the host has said.

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

    def watch_combination(self) -> None:
        """Where the keys that start the boot loader are down, see how long they have been."""
        if self.combination.starts(self.edges.closed, self.now_ms):
            self.lasting.boot_loads += 1

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
