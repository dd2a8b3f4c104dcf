"""# hold key that its own layer redefines

## What it does
Finds a key that holds a layer on and has an action of its own in that layer, where no other key
turns that layer on. A layer with `while` is held on by the keys of the layers that it needs.

## Why it matters
While the layer is on, that key is down: its action there can never be typed. Releasing the key
always ends the hold, whatever the layer says. Where another key turns the layer on too, the
action can be typed, and this rule is silent.

## Example
```keys
actions
  digits-on   = hold layer digits

layer base
  C = digits-on

layer digits
  A = 1  C = 2
```

## Do instead
```keys
actions
  digits-on   = hold layer digits

layer base
  C = digits-on

layer digits
  A = 1  B = 2
```

## Reference
`grammar/README.md`, the blocks `actions` and `layer`.
"""

from collections.abc import Iterator, Sequence

from matrixgen.model import (
    Cell,
    Diagnostic,
    Layer,
    LayerTurn,
    Note,
    Problem,
    Severity,
    Together,
    layer_turns,
)
from matrixgen.model.joint_layers import joint_layers
from matrixgen.rules.context import Context

PROBLEM = Problem("hold-key-redefined", Severity.WARNING, __doc__ or "")

LayerWay = tuple[Cell | Together, LayerTurn]
"""A cell that turns a layer on, and how."""

Holds = dict[str, Cell | Together]
"""The cells that must hold a layer on, by the keys that are down then."""


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each cell that a hold of its own key keeps from being typed."""
    holds = _holds(context.keyboard.layers, _ways_into(context))
    for layer in context.keyboard.layers:
        for cell in layer.cells:
            hold = holds[layer.name.text].get(cell.key.text)
            if hold and cell.action != hold.action:
                yield _finding(layer, cell, hold)


def _finding(layer: Layer, cell: Cell, hold: Cell | Together) -> Diagnostic:
    who, whose = f"`{cell.key}` holds", "its action"
    if isinstance(hold, Together):
        who, whose = f"`{hold.key}` together hold", f"the action of `{cell.key}`"
    return PROBLEM.at(
        cell.written.span,
        f"{who} `{layer.name}`, so {whose} there can never be typed",
        help=f"leave `{cell.key}` as it is in `{layer.name}`",
        notes=[Note("the hold is given here", hold.written.span)],
        about=[cell.key.text],
    )


def _holds(layers: Sequence[Layer], ways: dict[str, list[LayerWay]]) -> dict[str, Holds]:
    """Return the keys that are surely down while a layer is on, by its name.

    Layers that need others come after those: each is asked once, however many need it.
    """
    joint = joint_layers(layers)
    found: dict[str, Holds] = {}
    for layer in (*(one for one in layers if not one.needs), *joint):
        into = ways.get(layer.name.text, [])
        if layer.needs:
            needed = [] if into else [found[word.text] for word in layer.needs]
            found[layer.name.text] = {key: cell for holds in needed for key, cell in holds.items()}
        else:
            found[layer.name.text] = _held_by(into)
    return found


def _held_by(into: list[LayerWay]) -> Holds:
    """Return the one key that holds a layer on, where nothing else turns it on."""
    keys = {cell.key.text for cell, _ in into}
    if len(keys) != 1 or any(turn.lasts != "while down" for _, turn in into):
        return {}
    (cell, _), *_ = into
    return dict.fromkeys(cell.key_names, cell)


def _ways_into(context: Context) -> dict[str, list[LayerWay]]:
    """Return by layer every cell that turns it on."""
    ways: dict[str, list[LayerWay]] = {}
    for cell in context.keyboard.cells:
        for turn in layer_turns(cell.action):
            ways.setdefault(turn.layer, []).append((cell, turn))
    return ways
