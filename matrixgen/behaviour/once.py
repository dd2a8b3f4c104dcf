"""What is on for the next key only.

A `once` key holds its layer or its modifiers while it is down, as any other key. If nothing was
typed meanwhile, they stay on for the next key that types something. A second press while they wait
for that keeps them on until the next press, unless another `once` key was pressed between. A key
that was down before is never concerned.

All that waits is for one and the same key, and ends together: so long after the last `once` key was
let go as the file says.

Modifiers stay down with the key that used them, so that it repeats as it began; the next key that
types is not coloured by them any more.
"""

from __future__ import annotations

from collections.abc import Iterable, Set

from matrixgen.behaviour.state import Event, Lasting, Thing
from matrixgen.model import (
    Action,
    InTurn,
    Media,
    OnceLayer,
    OnceModifiers,
    Pointer,
    Press,
    WithModifier,
)


def bits_of(modifiers: int) -> set[Thing]:
    """Return modifiers one by one."""
    return {1 << bit for bit in range(8) if modifiers >> bit & 1}


def things_of(action: Action) -> set[Thing]:
    """Return what a `once` key turns on; nothing for any other key."""
    if isinstance(action, OnceLayer):
        return {action.layer}
    return bits_of(action.modifiers) if isinstance(action, OnceModifiers) else set()


def types_something(action: Action) -> bool:
    """Whether an action is what a `once` key waits for: not one that moves the pointer there."""
    if isinstance(action, Pointer):
        return not action.moves_pointer
    return isinstance(action, Media | InTurn | WithModifier) or (
        isinstance(action, Press) and action.usage != 0
    )


def types_only(action: Action) -> bool:
    """Whether an action types and has no modifiers, so that its end changes nothing for others.

    So it is with whatever moves.
    """
    if isinstance(action, Pointer):
        return True
    return types_something(action) and not (isinstance(action, Press) and action.modifiers)


def press(things: Set[Thing], lasting: Lasting) -> None:
    """Let a `once` key go down."""
    waits = {lasting.waiting.get(thing) for thing in things}
    again, lasting.pressed_last = things == lasting.pressed_last, things
    lasting.end(things if waits == {"pressed again"} else ())
    if waits == {"next key"} and again:
        lasting.waiting |= dict.fromkeys(things, "pressed again")
    elif waits != {"pressed again"}:
        lasting.end(thing for thing in things if lasting.waiting.get(thing) == "next key")
        lasting.fresh |= things


def release(things: Set[Thing], lasting: Lasting, at_ms: int) -> None:
    """Let a `once` key go up; no other one holds these things."""
    new = (lasting.fresh & things) - lasting.waiting.keys()
    lasting.waiting |= dict.fromkeys(new, "next key")
    lasting.fresh -= things
    lasting.let_go_ms = at_ms


def use(event: Event, lasting: Lasting) -> None:
    """Let a key type: what waits for it is used, and what was used before is over."""
    used = lasting.for_next_key()
    lasting.fresh.clear()
    lasting.used = sum(thing for thing in used if isinstance(thing, int))
    lasting.used_by = event.key
    lasting.end(used)


def key_is_up(key: str, lasting: Lasting) -> None:
    """Let a key go up, and what it used with it."""
    if key == lasting.used_by:
        lasting.used = 0


def ends(held: Iterable[Action], lasting: Lasting, lasts_ms: int | None, at_ms: int) -> bool:
    """Let what waits end if it is due and no `once` key is held; true if it was."""
    waiting = lasting.for_next_key()
    if not waiting or lasts_ms is None or any(map(things_of, held)):
        return False
    if at_ms - lasting.let_go_ms < lasts_ms:
        return False
    lasting.end(waiting)
    return True
