"""Keys with two meanings, hands, and layers that depend on others, as the firmware has them."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.model import Keyboard
from matrixgen.model.actions import (
    Action,
    ChangeBase,
    FirstSecond,
    OnceLayer,
    OnceModifiers,
    TapHold,
)
from matrixgen.model.bases import bases_of
from matrixgen.model.hands import hands_of
from matrixgen.model.joint_layers import joint_layers
from matrixgen.record import Record

_DECIDED_BY = {"time": 0, "press": 1, "release": 2}
_OTHER_HAND = 4
_HANDS = {None: 0, "left": 1, "right": 2}


class TapHoldView(Record):
    """A row of the table: two numbers of actions, two times, the bits of `tables.h`."""

    tap: int
    hold: int
    after_ms: int
    roll_ms: int
    how: int
    comment: str


class FirstSecondView(Record):
    """A row of the table: the numbers of what three presses do, 0 for none, and a time."""

    does: tuple[int, ...]
    within_ms: int
    comment: str


class JointLayerView(Record):
    """A layer's number, and a bit for each layer that it needs."""

    layer: int
    needs: int
    comment: str


class TimedView(Record, kw_only=True):
    """All that depends on time, on other keys, or on other layers.

    `hands` has 1 left, 2 right, 0 neither for each key, in plate order, where an action asks for
    it; `bases_mark` is a byte that is another one where there are more or fewer bases.
    """

    press_ms: int
    once_ms: int
    has_once: bool
    changes_base: bool
    remembers_base: bool
    bases_mark: int
    tap_holds: tuple[TapHoldView, ...]
    first_seconds: tuple[FirstSecondView, ...]
    asks_hands: bool
    hands: tuple[int, ...]
    joint_layers: tuple[JointLayerView, ...]
    has_together: bool

    @property
    def asks_times(self) -> bool:
        """Whether keys ask how long ago an event was."""
        return bool(self.tap_holds or self.first_seconds or self.once_ms) or self.has_together

    @property
    def moment_bits(self) -> int:
        """How many bits the time of an event has: more where keys ask how long ago it was."""
        return 16 if self.asks_times else 8


def timed_view(keyboard: Keyboard, numbers: Mapping[Action, int]) -> TimedView:
    """Return the view of a keyboard, its actions having these numbers."""
    settings = keyboard.effective
    hands = _hand_numbers(keyboard, asked=any(action.heeds_hands for action in numbers))
    return TimedView(
        press_ms=settings.press_ms,
        once_ms=settings.once_ms,
        has_once=keyboard.has(OnceLayer, OnceModifiers),
        changes_base=keyboard.has(ChangeBase),
        remembers_base=settings.remember_base,
        bases_mark=_bases_mark(keyboard),
        tap_holds=_tap_hold_views(numbers),
        first_seconds=_first_second_views(numbers),
        asks_hands=any(hands),
        hands=hands,
        joint_layers=_joint_layer_views(keyboard),
        has_together=any(layer.together for layer in keyboard.layers),
    )


def _bases_mark(keyboard: Keyboard) -> int:
    """Return what a kept base is marked with, so that the number of one of these is believed.

    How many there are is all that matters: a base goes on being the same under another name, with
    other keys, and beneath other layers.
    """
    return (0x5A + len(bases_of(keyboard))) & 0xFF


def _tap_hold_views(numbers: Mapping[Action, int]) -> tuple[TapHoldView, ...]:
    """Return the keys with two meanings, in the order of their actions."""
    return tuple(
        TapHoldView(
            tap=numbers[action.tap],
            hold=numbers[action.hold],
            after_ms=action.after_ms,
            roll_ms=action.roll_ms,
            how=_DECIDED_BY[action.decided_by] | _OTHER_HAND * action.other_hand,
            comment=action.phrase,
        )
        for action in numbers
        if isinstance(action, TapHold)
    )


def _first_second_views(numbers: Mapping[Action, int]) -> tuple[FirstSecondView, ...]:
    """Return the keys that do something else when pressed again, in the order of their actions."""
    return tuple(
        FirstSecondView(
            does=(*(numbers[part] for part in action.parts), *([0] if not action.third else [])),
            within_ms=action.within_ms,
            comment=action.phrase,
        )
        for action in numbers
        if isinstance(action, FirstSecond)
    )


def _hand_numbers(keyboard: Keyboard, *, asked: bool) -> tuple[int, ...]:
    """Return each key's hand, in plate order: 1 left, 2 right, 0 neither, or not asked for."""
    if not asked:
        return (0,) * len(keyboard.turned_or_pressed)
    hands = hands_of(keyboard.plate)
    return tuple(_HANDS[hands.get(name)] for name in keyboard.turned_or_pressed)


def _joint_layer_views(keyboard: Keyboard) -> tuple[JointLayerView, ...]:
    """Return the layers that are on while others are, each after those of them that it needs."""
    number_of = {layer.name.text: number for number, layer in enumerate(keyboard.layers)}
    return tuple(
        JointLayerView(
            number_of[layer.name.text],
            sum(1 << number_of[name.text] for name in layer.needs),
            f"{layer.name.text} while {' and '.join(name.text for name in layer.needs)} are on",
        )
        for layer in joint_layers(keyboard.layers)
    )
