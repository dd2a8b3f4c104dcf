"""# latch with no way back

## What it does
Finds a layer that can be latched on, after which no key in any layer that can be on turns it off
again.

## Why it matters
The keyboard stays in that layer until it is unplugged. Most often the latch's own key was given
another action in the layer.

## Example
```keys
actions
  digits-lock = latch layer digits

layer base
  C = digits-lock

layer digits
  A = 1  C = 2
```

## Do instead
```keys
actions
  digits-lock = latch layer digits

layer base
  C = digits-lock

layer digits
  A = 1  B = 2
```

## Reference
`grammar/README.md`, the blocks `actions` and `layer`. All sets of layers that keys can turn on are
tried, up to a few thousand; past that this rule says nothing.
"""

from collections.abc import Iterator
from typing import Literal

from matrixgen.model import (
    Cell,
    Diagnostic,
    Keyboard,
    Layer,
    LayerTurn,
    Note,
    Problem,
    Severity,
    Together,
    layer_turns,
)
from matrixgen.rules.context import Context
from matrixgen.rules.layers.latch_states import traps

PROBLEM = Problem("latch-without-way-back", Severity.ERROR, __doc__ or "")


LATCHING: tuple[Literal["until pressed again", "for the next key"], ...] = (
    "until pressed again",
    "for the next key",
)
"""Turns that can leave a layer on: a key for the next key that is pressed twice does."""


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each layer that some reachable state cannot leave, at a cell that latches it."""
    steps = context.latch_steps
    if steps is None:
        return
    for number, layer in enumerate(context.keyboard.layers):
        if number and traps(steps, 1 << number):
            yield _finding(context.keyboard, layer)


def _turning(keyboard: Keyboard, turn: LayerTurn) -> Iterator[Cell | Together]:
    return (cell for cell in keyboard.cells if turn in layer_turns(cell.action))


def _finding(keyboard: Keyboard, layer: Layer) -> Diagnostic:
    name = layer.name.text
    latch = next(cell for lasts in LATCHING for cell in _turning(keyboard, LayerTurn(name, lasts)))
    covering = [
        Note(f"in `{other.name}` that key does something else", cell.written.span)
        for other in keyboard.layers[1:]
        for cell in other.cells
        if cell.key.text in latch.key_names and cell is not latch
    ]
    return PROBLEM.at(
        latch.written.span,
        f"once latched, `{name}` has no way back",
        help=f"leave `{latch.key}` as it is in the layers above, or give another key there "
        "the action `unlatch layers`",
        notes=covering[:3],
    )
