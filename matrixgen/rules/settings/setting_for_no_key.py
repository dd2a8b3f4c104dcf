"""# setting for no key

## What it does
Finds `once lasts` without a `once` key, `hold after` and `roll` without a key that has a tap and a
hold, `pace` without a key that types one thing after the other, `together within` without a set of
keys, `pointer` without a key that moves the pointer, `wheel` without one that turns a wheel, and
`remember base` without a key that changes the base.

## Why it matters
The statement does nothing. The key that it was for may have another action now.

## Example
```keys
keyboard "Pad"
  controller atmega32u4
  once       lasts 2000 ms

layer base
  A = Shift
```

## Do instead
```keys
keyboard "Pad"
  controller atmega32u4
  once       lasts 2000 ms

layer base
  A = once Shift
```

## Reference
`grammar/README.md`, "For the next key", "A tap and a hold", "One thing after
the other", "Keys together", "A pointer and wheels" and "Another base".
"""

from collections.abc import Iterator

from matrixgen.model import (
    Behaviour,
    ChangeBase,
    Diagnostic,
    InTurn,
    Keyboard,
    OnceLayer,
    OnceModifiers,
    Pointer,
    Problem,
    Severity,
    TapHold,
)
from matrixgen.rules.context import Context

PROBLEM = Problem("setting-for-no-key", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding for each setting that no key needs."""
    keyboard = context.keyboard
    used: set[type[Behaviour]] = set(map(type, keyboard.every_action))
    if keyboard.once_ms and used.isdisjoint((OnceLayer, OnceModifiers)):
        yield PROBLEM.at(
            keyboard.once_ms.span,
            "no key has a `once` action, so `once lasts` has no effect",
            help="remove it, or give a key an action such as `once Shift`",
        )
    for setting, words in ((keyboard.hold_after_ms, "hold after"), (keyboard.roll_ms, "roll")):
        if setting and TapHold not in used:
            yield PROBLEM.at(
                setting.span,
                f"no key has a tap and a hold, so `{words}` has no effect",
                help="remove it, or give a key an action such as `tap A, hold Shift`",
            )
    if keyboard.pace_ms and InTurn not in used:
        yield PROBLEM.at(
            keyboard.pace_ms.span,
            "no key types one thing after the other, so `pace` has no effect",
            help="remove it, or give a key an action such as `Ctrl+K, then Ctrl+C`",
        )
    if keyboard.together_ms and not any(layer.together for layer in keyboard.layers):
        yield PROBLEM.at(
            keyboard.together_ms.span,
            "no keys are one action together, so `together within` has no effect",
            help="remove it, or give two keys an action in a layer, as in `together A B = Esc`",
        )
    yield from _speeds(keyboard)
    if keyboard.remember_base and ChangeBase not in used:
        yield PROBLEM.at(
            keyboard.remember_base,
            "no key changes the base, so there is nothing to remember",
            help="remove it, or give a key the action `change base to NAME`",
        )


def _speeds(keyboard: Keyboard) -> Iterator[Diagnostic]:
    """Yield one finding for each speed of what no key moves."""
    moves = [one for one in keyboard.every_action if isinstance(one, Pointer) and not one.is_button]
    moves_pointer = {one.moves_pointer for one in moves}
    if keyboard.pointer and True not in moves_pointer:
        yield PROBLEM.at(
            keyboard.pointer[0].span,
            "no key moves the pointer, so `pointer` has no effect",
            help="remove it, or give keys `PointerLeft`, `PointerRight` and the like",
        )
    if keyboard.wheel and False not in moves_pointer:
        yield PROBLEM.at(
            keyboard.wheel[0].span,
            "no key turns a wheel, so `wheel` has no effect",
            help="remove it, or give keys `WheelUp`, `WheelDown` and the like",
        )
