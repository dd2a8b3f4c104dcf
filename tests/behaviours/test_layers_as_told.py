"""What an action says of layers is what its press does in the model that the engine is held to.

Rules ask actions which layers they turn on and off; the model of `behaviour/` was written from the
language's reference and asks no action that.
"""

from __future__ import annotations

import random
from typing import get_args

import pytest

from matrixgen.behaviour import once
from matrixgen.behaviour.behaviours import held_by, press_key
from matrixgen.behaviour.state import Lasting
from matrixgen.model import (
    BASE,
    Action,
    FirstSecond,
    Keyboard,
    TapHold,
    WithModifier,
    with_parts,
)
from matrixgen.model.layer_effects import BASE_ALONE, BASES, LayersLeft, effects_of
from tests.firmware.pads import (
    kept_pad,
    loader_pad,
    media_pad,
    pointer_pad,
    small_pad,
    timed_pad,
    turn_pad,
)

EVERY = (small_pad, timed_pad, media_pad, kept_pad, loader_pad, turn_pad, pointer_pad)
PADS = {pad.__name__: pad() for pad in EVERY}
TIMES = 300
ONE_OF_SEVERAL = (TapHold, FirstSecond, WithModifier)


def numbers_of(keyboard: Keyboard) -> dict[str, int]:
    return {layer.name.text: number for number, layer in enumerate(keyboard.layers)}


def parts_of(keyboard: Keyboard) -> list[Action]:
    """Return what a press may do; of a key with several meanings it does one."""
    parts = {part: None for action in keyboard.every_action for part in with_parts(action)}
    return [part for part in parts if not isinstance(part, ONE_OF_SEVERAL)]


def what_was_left(chance: random.Random, layers: list[str]) -> Lasting:
    """Return what earlier presses may have left behind."""
    above = [layer for layer in layers if layer != BASE]
    waiting = {layer: chance.choice((None, "next key", "pressed again")) for layer in above}
    return Lasting(
        latched={layer for layer in above if chance.random() < 0.5},
        lowest=chance.choice(layers),
        waiting={layer: until for layer, until in waiting.items() if until},
    )


def sets_of(lasting: Lasting, numbers: dict[str, int]) -> LayersLeft:
    """Return what was left as a rule has it."""

    def waiting(until: str) -> int:
        names = (name for name, so in lasting.waiting.items() if so == until)
        return sum(1 << numbers[name] for name in names if isinstance(name, str))

    latched = sum(1 << numbers[layer] for layer in lasting.latched)
    base = numbers[lasting.lowest]
    lowest = 1 << BASES + base if base else 0
    return LayersLeft(latched | BASE_ALONE | lowest, waiting("pressed again"), waiting("next key"))


def press_and_let_go(action: Action, lasting: Lasting) -> None:
    """Press a key in the model; a `once` key as if it had been pressed last."""
    things = once.things_of(action)
    lasting.pressed_last = things
    press_key(action, lasting)
    if things:
        once.release(things, lasting, at_ms=0)


def test_the_pads_have_every_behaviour_that_is_pressed() -> None:
    on_pads = {type(part) for keyboard in PADS.values() for part in parts_of(keyboard)}
    assert on_pads == set(get_args(Action)) - {*ONE_OF_SEVERAL}


@pytest.mark.parametrize("keyboard", PADS.values(), ids=PADS)
def test_a_press_leaves_on_what_its_action_says(keyboard: Keyboard) -> None:
    numbers, chance = numbers_of(keyboard), random.Random(1)
    for action in parts_of(keyboard):
        for _ in range(TIMES):
            lasting = what_was_left(chance, list(numbers))
            told = before = sets_of(lasting, numbers)
            for effect in effects_of(action, numbers):
                told = effect.pressed(told)
            press_and_let_go(action, lasting)
            assert sets_of(lasting, numbers) == told, (action.phrase, before)


@pytest.mark.parametrize("keyboard", PADS.values(), ids=PADS)
def test_a_key_holds_the_layers_that_its_action_says(keyboard: Keyboard) -> None:
    numbers = numbers_of(keyboard)
    for action in parts_of(keyboard):
        told = sum(effect.held for effect in effects_of(action, numbers))
        held = held_by([action]).layers
        assert sum(1 << numbers[layer] for layer in held) == told, action.phrase
