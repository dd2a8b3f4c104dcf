"""What a key can do: one file a behaviour.

Rules, emitters and comparisons ask an action what it does (`turns_on`, `turns_off`, `parts`,
`phrase`); only the one place of each room that must tell behaviours apart looks at its class, and a
type checker sees to it that each such place knows all of them. `tests/behaviours` holds every room
to this list.
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model.actions.behaviour import Behaviour, LayerEnd, LayerTurn
from matrixgen.model.actions.change_base import ChangeBase
from matrixgen.model.actions.first_second import FirstSecond
from matrixgen.model.actions.hold_layer import HoldLayer
from matrixgen.model.actions.in_turn import InTurn, Pause, Struck, TurnStep, Typed
from matrixgen.model.actions.latch_layer import LatchLayer
from matrixgen.model.actions.media import Media
from matrixgen.model.actions.nothing import Nothing
from matrixgen.model.actions.once_layer import OnceLayer
from matrixgen.model.actions.once_modifiers import OnceModifiers
from matrixgen.model.actions.pointer import Pointer
from matrixgen.model.actions.press import Press
from matrixgen.model.actions.start_boot_loader import StartBootLoader
from matrixgen.model.actions.tap_hold import TapHold
from matrixgen.model.actions.unlatch_layers import UnlatchLayers
from matrixgen.model.actions.with_modifier import Instead, WithModifier

Action = (
    Press
    | Media
    | Pointer
    | HoldLayer
    | LatchLayer
    | UnlatchLayers
    | OnceLayer
    | OnceModifiers
    | ChangeBase
    | TapHold
    | FirstSecond
    | InTurn
    | WithModifier
    | Nothing
    | StartBootLoader
)
"""Every behaviour there is."""


def with_parts(action: Action) -> Iterator[Action]:
    """Yield an action and every action that it contains."""
    yield action
    for part in action.parts:
        yield from with_parts(part)


def layer_turns(action: Action) -> tuple[LayerTurn, ...]:
    """Return every layer that an action turns on, by itself or by a part of it."""
    return tuple(turn for part in with_parts(action) for turn in part.turns_on)


def sent_usages(action: Action) -> tuple[int, ...]:
    """Return every usage of the keyboard page that an action can send, by itself or by a part."""
    return tuple(usage for part in with_parts(action) for usage in part.sends)


def is_modifier(action: Action) -> bool:
    """Whether an action, or a part of it, holds down modifiers and nothing else."""
    return any(part.is_modifier for part in with_parts(action))


def starts_boot_loader(action: Action) -> bool:
    """Whether an action leaves the keyboard for the boot loader, by itself or by a part of it."""
    return any(part.starts_boot_loader for part in with_parts(action))
