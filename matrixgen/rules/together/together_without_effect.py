"""# keys together without an effect

## What it does
Finds a set of keys that does nothing, of keys that do nothing by themselves either.

## Why it matters
Pressed together or alone, these keys are dead. The action was forgotten, or the keys are others.

## Example
```keys
layer base
  A = nothing  B = nothing
  together A B = nothing
```

## Do instead
```keys
layer base
  A = nothing  B = nothing
  together A B = Esc
```

## Reference
`grammar/README.md`, the section "Keys together".
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Keyboard, Layer, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("together-without-effect", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each such set."""
    for layer in context.keyboard.layers:
        for one in layer.together:
            is_dead = one.action.does_nothing
            if is_dead and all(_is_dead(context.keyboard, layer, key) for key in one.key_names):
                yield PROBLEM.at(
                    one.written.span,
                    f"`{one.key}` do nothing, together or alone",
                    help="give them an action together, or remove the set",
                    about=one.key_names,
                )


def _is_dead(keyboard: Keyboard, layer: Layer, key: str) -> bool:
    action = layer.action_of(key) or keyboard.layers[0].action_of(key)
    return action is not None and action.does_nothing
