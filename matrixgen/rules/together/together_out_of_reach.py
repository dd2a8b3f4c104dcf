"""# keys that can never be together

## What it does
Finds a set of keys that cannot be pressed whenever its layer is on: one of its keys is already down
then, or another layer that is on gives it an action.

## Why it matters
A key that is down before the others are pressed cannot come to them, so the action of the set can
never be typed. Most often the key that holds the layer on is one of the set.

## Example
```keys
layer base
  C = hold layer digits

layer digits
  together A C = 1
```

## Do instead
```keys
layer base
  C = hold layer digits

layer digits
  together A B = 1
```

## Reference
`grammar/README.md`, the section "Keys together". All sets of layers that keys can turn on are
tried, up to a few thousand; past that this rule says nothing.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.model.layer_states import LayerKeys, LayerState, name_together
from matrixgen.rules.context import Context

PROBLEM = Problem("together-out-of-reach", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each such set of a layer that can be on."""
    keyboard = context.keyboard
    if not any(layer.together for layer in keyboard.layers):
        return
    keys = context.layer_keys
    states = keys.states()
    for number, layer in enumerate(keyboard.layers) if keys.has_all_states else ():
        on = [state for state in states if layer.name.text in _names(keys, state)]
        for one in layer.together if on else ():
            name = name_together(one)
            if not any(_can_press(keys, name, number, state) for state in on):
                yield PROBLEM.at(
                    one.key.span,
                    f"`{one.key}` can never be pressed together while `{layer.name}` is on",
                    help="name keys that are up then, and that no layer above gives an action",
                    about=one.key_names,
                )


def _names(keys: LayerKeys, state: LayerState) -> tuple[str, ...]:
    base = next(iter(keys.number_of))
    return (base, *keys.names_of(state.layers))


def _can_press(keys: LayerKeys, name: str, number: int, state: LayerState) -> bool:
    is_up = state.held.isdisjoint(keys.keys_of(name))
    return is_up and keys.layer_of(name, state.layers) == number
