"""The one place of this room that tells behaviours apart."""

from __future__ import annotations

from collections.abc import Iterable
from typing import assert_never

from matrixgen.behaviour import (
    change_base,
    hold_layer,
    latch_layer,
    media,
    nothing,
    once_layer,
    once_modifiers,
    press,
    start_boot_loader,
    tap_hold,
)
from matrixgen.behaviour.state import Held, Lasting
from matrixgen.model import (
    Action,
    ChangeBase,
    HoldLayer,
    LatchLayer,
    Media,
    Nothing,
    OnceLayer,
    OnceModifiers,
    Press,
    StartBootLoader,
    TapHold,
)


def press_key(action: Action, lasting: Lasting) -> None:
    """Change what a press changes for good."""
    match action:
        case Press():
            press.press(action, lasting)
        case Media():
            media.press(action, lasting)
        case HoldLayer():
            hold_layer.press(action, lasting)
        case LatchLayer():
            latch_layer.press(action, lasting)
        case OnceLayer():
            once_layer.press(action, lasting)
        case OnceModifiers():
            once_modifiers.press(action, lasting)
        case ChangeBase():
            change_base.press(action, lasting)
        case TapHold():
            tap_hold.press(action, lasting)
        case Nothing():
            nothing.press(action, lasting)
        case StartBootLoader():
            start_boot_loader.press(action, lasting)
        case _:
            assert_never(action)


def held_by(actions: Iterable[Action]) -> Held:
    """Return what keys with these actions hold while they are down."""
    held = Held()
    for action in actions:
        match action:
            case Press():
                press.hold(action, held)
            case Media():
                media.hold(action, held)
            case HoldLayer():
                hold_layer.hold(action, held)
            case LatchLayer():
                latch_layer.hold(action, held)
            case OnceLayer():
                once_layer.hold(action, held)
            case OnceModifiers():
                once_modifiers.hold(action, held)
            case ChangeBase():
                change_base.hold(action, held)
            case TapHold():
                tap_hold.hold(action, held)
            case Nothing():
                nothing.hold(action, held)
            case StartBootLoader():
                start_boot_loader.hold(action, held)
            case _:
                assert_never(action)
    return held
