"""The one place of the oracle that tells behaviours apart."""

from __future__ import annotations

from collections.abc import Iterable
from typing import assert_never

from matrixgen.model import Action, HoldLayer, LatchLayer, Nothing, Press, StartBootLoader
from tests.firmware.oracle import hold_layer, latch_layer, nothing, press, start_boot_loader
from tests.firmware.oracle.state import Held, Lasting


def press_key(action: Action, lasting: Lasting) -> None:
    """What a press changes for good."""
    match action:
        case Press():
            press.press(action, lasting)
        case HoldLayer():
            hold_layer.press(action, lasting)
        case LatchLayer():
            latch_layer.press(action, lasting)
        case Nothing():
            nothing.press(action, lasting)
        case StartBootLoader():
            start_boot_loader.press(action, lasting)
        case _:
            assert_never(action)


def held_by(actions: Iterable[Action]) -> Held:
    """What keys with these actions hold while they are down."""
    held = Held()
    for action in actions:
        match action:
            case Press():
                press.hold(action, held)
            case HoldLayer():
                hold_layer.hold(action, held)
            case LatchLayer():
                latch_layer.hold(action, held)
            case Nothing():
                nothing.hold(action, held)
            case StartBootLoader():
                start_boot_loader.hold(action, held)
            case _:
                assert_never(action)
    return held
