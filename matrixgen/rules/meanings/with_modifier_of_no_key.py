"""# with a modifier that no key has

## What it does
Finds a `with` for a modifier that no key of the keyboard holds down, on the side that it asks for.

## Why it matters
What the key would do with it can never be typed. A modifier that is held on another keyboard does
not count: keyboards do not hear of each other.

## Example
```keys
layer base
  B = A, with RightCtrl Home
  C = Ctrl
```

## Do instead
```keys
layer base
  B = A, with Ctrl Home
  C = Ctrl
```

## Reference
`grammar/README.md`, the section "With a modifier".
"""

from collections.abc import Iterator

from matrixgen.model import (
    Diagnostic,
    Keyboard,
    OnceModifiers,
    Press,
    Problem,
    Severity,
    WithModifier,
)
from matrixgen.model.actions.with_modifier import kinds_of
from matrixgen.rules.context import Context
from matrixgen.rules.meanings.each_cell import first_of_kind

PROBLEM = Problem("with-modifier-of-no-key", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each such part of an action."""
    held = _held_by_keys(context.keyboard)
    for action, cell, keys in first_of_kind(context.keyboard, WithModifier):
        for one in action.others:
            if kinds_of(one.modifiers & held) != kinds_of(one.modifiers):
                yield PROBLEM.at(
                    cell.written.span,
                    f"no key holds {one.words}, so `{cell.key}` never does `{one.action.phrase}`",
                    help=f"give a key {one.words}, or another modifier to `with`",
                    about=keys,
                )


def _held_by_keys(keyboard: Keyboard) -> int:
    """Return all modifiers that keys hold, alone or for the next key."""
    held = 0
    for action in keyboard.every_action:
        match action:
            case Press(0, modifiers) | OnceModifiers(modifiers):
                held |= modifiers
            case _:
                pass
    return held
