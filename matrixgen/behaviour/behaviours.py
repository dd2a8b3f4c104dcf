"""The one place of this room that tells behaviours apart: what a press leaves, what a key holds."""

from __future__ import annotations

from collections.abc import Iterable
from typing import assert_never

from matrixgen.behaviour import once
from matrixgen.behaviour.state import Held, Lasting
from matrixgen.model.actions import (
    Action,
    ChangeBase,
    FirstSecond,
    HoldLayer,
    InTurn,
    LatchLayer,
    Media,
    Nothing,
    OnceLayer,
    OnceModifiers,
    Pointer,
    Press,
    StartBootLoader,
    TapHold,
    UnlatchLayers,
    WithModifier,
)


def press_key(action: Action, lasting: Lasting) -> None:
    """Change what a press changes for good; that a key typed is noted in `once.py`."""
    match action:
        case LatchLayer():
            lasting.latched ^= {action.layer}
        case UnlatchLayers():
            lasting.unlatch()
        case OnceLayer() | OnceModifiers():
            once.press(once.things_of(action), lasting)
        case ChangeBase():
            lasting.lowest = action.layer
        case StartBootLoader():
            lasting.boot_loads += 1  # it ends the keyboard; here it is counted
        case Press() | Media() | Pointer() | HoldLayer() | InTurn() | FirstSecond() | Nothing():
            pass  # what is typed in turn, and what moves, begins in `presses.py`
        case TapHold() | WithModifier():
            raise AssertionError(action)  # one of its parts is pressed
        case _:
            assert_never(action)


def held_by(actions: Iterable[Action]) -> Held:
    """Return what keys with these actions hold while they are down."""
    held = Held()
    for action in actions:
        match action:
            case Press():
                if action.usage:
                    held.usages.add(action.usage)
                held.modifiers |= action.modifiers
            case Media():
                held.media.add((action.page, action.usage))
            case Pointer():
                held.pointer.add(action)
            case HoldLayer() | OnceLayer():
                held.layers.add(action.layer)
            case OnceModifiers():
                held.modifiers |= action.modifiers
            case LatchLayer() | UnlatchLayers() | ChangeBase() | FirstSecond() | Nothing():
                pass
            case StartBootLoader() | InTurn() | WithModifier():
                pass  # what is typed in turn is no key's own; of the other a key is over
            case TapHold():
                raise AssertionError(action)  # one of its parts is held
            case _:
                assert_never(action)
    return held
