"""Which keys a keymap has pressed together, against the executable model of what keys do."""

from __future__ import annotations

from itertools import chain, combinations
from random import Random

import pytest

from matrixgen.behaviour import Machine
from matrixgen.circuit.combinations import KeyUse, Uses
from matrixgen.model import HoldLayer, Keyboard, LatchLayer, Nothing, Press
from matrixgen.model.layer_states import LayerKeys
from tests.firmware.build_model import keyboard
from tests.firmware.pads import small_pad

SHIFT, CTRL, ALT, GUI = (Press(0, 1 << bit) for bit in (1, 0, 2, 3))


def settle(oracle: Machine) -> None:
    for _ in range(8):
        oracle.now_ms += 1
        oracle.step()
        oracle.waiting = None


@pytest.mark.few(3)
@pytest.mark.parametrize("seed", range(6))
def test_random_fingers_bring_about_those_states_and_no_others(seed: int) -> None:
    pad, chance = small_pad(), Random(seed)
    keys, oracle = LayerKeys(pad), Machine(pad)
    states = keys.states()
    seen = set()
    for _ in range(3000):
        key = chance.choice([*keys.turning, "A"])
        oracle.closed ^= {key}
        settle(oracle)
        layers = sum(1 << keys.number_of[name] for name in oracle.layers_on())
        fitting = [one for one in states if one.layers == layers and one.held <= oracle.closed]
        assert fitting, (oracle.layers_on(), oracle.closed)
        seen |= {one for one in fitting if one.held == oracle.closed}
    assert len(seen) == len(states)


def pad(**more: object) -> Keyboard:
    rows = [["A", "B", "Fn", "Shift"], ["C", "Dead", "Ctrl", "Alt"], ["Num", "Far", "GUI", None]]
    base = {name: Press(4 + n) for n, name in enumerate("ABC")}
    base |= {"Shift": SHIFT, "Ctrl": CTRL, "Alt": ALT, "GUI": GUI, "Dead": Nothing()}
    base |= {"Fn": HoldLayer("nav"), "Num": LatchLayer("digits"), "Far": Press(0x20)}
    layers = {"base": base, "nav": {"A": Press(0x50), "Far": HoldLayer("far")}}
    layers |= {"digits": {"A": Press(0x1E), "Dead": Press(0x27)}, "far": {"B": Press(0x52)}}
    return keyboard(rows, layers, **more)  # type: ignore[arg-type]


MODIFIERS = {"Shift", "Ctrl", "Alt", "GUI"}


@pytest.mark.parametrize(
    ("keys", "layers"),
    [
        ("A", ()),
        ("Shift A", ()),
        ("Shift Ctrl Alt A", ()),
        ("Shift Ctrl Alt GUI", ()),
        ("Fn A", ("nav",)),
        ("Fn Shift Ctrl GUI A", ("nav",)),
        ("Fn Far B", ("nav", "far")),
        ("Fn Far Shift B", ("nav", "far")),
        ("Shift Dead", ("digits",)),
        ("Fn Num", ("nav",)),
        ("A B", None),
        ("Shift Ctrl Alt GUI A", None),
        ("Far B", ("nav", "far")),  # Fn has been let go of
        ("Fn A B", None),
        ("Fn Dead", ("nav", "digits")),
    ],
)
def test_the_keys_that_are_pressed_together(keys: str, layers: tuple[str, ...] | None) -> None:
    use = Uses(pad()).of(keys.split())
    assert (use.layers if use else None) == layers


def test_the_keys_of_the_boot_loader_are_pressed_together() -> None:
    assert Uses(pad()).of({"A", "B", "C"}) is None
    assert Uses(pad(hold=["A", "B", "C"])).of({"A", "B", "C"}) is not None


def whole(use: KeyUse) -> set[frozenset[str]]:
    """Everything that a use has down at once, written out."""
    sets = chain.from_iterable(combinations(sorted(use.modifiers), n) for n in range(4))
    return {
        use.held | set(modifiers) | {other}
        for modifiers in sets
        for other in [*use.others, *use.held]
    } | {use.held | set(modifiers) for modifiers in sets}


def test_any_set_of_keys_is_a_use_just_if_it_is_part_of_one_written_out() -> None:
    uses = Uses(pad())
    written = set().union(*map(whole, uses.all))
    names = [key.name.text for key in pad().keys]
    for size in range(6):
        for keys in combinations(names, size):
            is_part = any(set(keys) <= one for one in written)
            assert (uses.of(keys) is not None) == is_part, keys
