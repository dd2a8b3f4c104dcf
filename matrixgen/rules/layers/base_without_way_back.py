"""# base with no way back

## What it does
Finds a layer that a key makes the base, after which no key in any layer that can be on changes the
base again.

## Why it matters
It stays like this until it is unplugged, and with `remember base` for good. Most often the
new base has no key that goes back.

## Example
```keys
layer base
  C = change base to other

layer other
  A = Q  B = W  C = E
```

## Do instead
```keys
layer base
  C = change base to other

layer other
  A = Q  B = W  C = change base to base
```

## Reference
`grammar/README.md`, the section "Another base". All sets of layers that keys can turn on are tried,
up to a few thousand; past that this rule says nothing.
"""

from collections.abc import Iterator

from matrixgen.model import (
    Diagnostic,
    Keyboard,
    LayerTurn,
    Note,
    Problem,
    Severity,
    layer_turns,
)
from matrixgen.model.layer_effects import BASES
from matrixgen.rules.context import Context
from matrixgen.rules.layers.latch_states import traps

PROBLEM = Problem("base-without-way-back", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each layer that is the base in some state for ever, at a cell that makes it so."""
    if not _bases(context.keyboard):
        return
    steps, layers = context.latch_steps, context.keyboard.layers
    if steps is None or any(traps(steps, 1 << number) for number in range(1, len(layers))):
        return  # latch-without-way-back says why
    for number, layer in enumerate(layers):
        if traps(steps, 1 << BASES + number):
            yield _finding(context.keyboard, layer.name.text)


def _bases(keyboard: Keyboard) -> set[str]:
    turns = (turn for cell in keyboard.cells for turn in layer_turns(cell.action))
    return {turn.layer for turn in turns if turn.lasts == "for good"}


def _finding(keyboard: Keyboard, name: str) -> Diagnostic:
    turn = LayerTurn(name, "for good")
    cells = [(layer, cell) for layer in keyboard.layers for cell in layer.every_cell]
    change = next(cell for _, cell in cells if turn in layer_turns(cell.action))
    back = [
        Note(
            f"`{layer.name}` has a key that changes it, but it is out of reach then", cell.key.span
        )
        for layer, cell in cells
        if any(one.lasts == "for good" and one != turn for one in layer_turns(cell.action))
    ]
    return PROBLEM.at(
        change.written.span,
        f"once `{name}` is the base, no key makes another layer the base",
        help=f"give a key of `{name}` the action `change base to base`",
        notes=back[:1],
    )
