"""# hold key that its own layer redefines

## What it does
Finds a key that holds a layer on and has an action of its own in that layer, where no other key
turns that layer on.

## Why it matters
While the layer is on, that very key is down: its action there can never be typed. Letting go of the
key always ends the hold, whatever the layer says. Where another key turns the layer on too, the
action can be typed, and this rule is silent.

## Example
```keys
actions
  digits-on = hold layer digits

layer base
  C = digits-on

layer digits
  A = 1  C = 2
```

## Do instead
```keys
actions
  digits-on = hold layer digits

layer base
  C = digits-on

layer digits
  A = 1  B = 2
```

## Reference
`grammar/README.md`, the blocks `actions` and `layer`.
"""

from collections.abc import Iterator

from matrixgen.model import Cell, Diagnostic, LayerTurn, Note, Problem, Severity, layer_turns
from matrixgen.rules.context import Context

PROBLEM = Problem("hold-key-redefined", Severity.WARNING, __doc__ or "")

Way = tuple[Cell, LayerTurn]
"""A cell that turns a layer on, and how."""


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each cell that its own hold keeps from being typed."""
    ways = _ways_into(context)
    for layer in context.keyboard.layers:
        into = ways.get(layer.name.text, [])
        keys = {cell.key.text for cell, _ in into}
        if len(keys) != 1 or any(turn.lasts != "while down" for _, turn in into):
            continue
        hold = into[0][0]
        for cell in layer.cells:
            if cell.key.text in keys and cell.action != hold.action:
                yield PROBLEM.at(
                    cell.written.span,
                    f"`{cell.key}` holds `{layer.name}`, so its action there can never be typed",
                    help=f"leave `{cell.key}` as it is in `{layer.name}`",
                    notes=[Note("the hold is given here", hold.written.span)],
                    about=[cell.key.text],
                )


def _ways_into(context: Context) -> dict[str, list[Way]]:
    """Return by layer every cell that turns it on."""
    ways: dict[str, list[Way]] = {}
    for layer in context.keyboard.layers:
        for cell in layer.cells:
            for turn in layer_turns(cell.action):
                ways.setdefault(turn.layer, []).append((cell, turn))
    return ways
