"""# layer that nothing reaches

## What it does
Finds a layer that no key turns on, starting from the base layer.

## Why it matters
Its cells can never be typed. Either the key that should hold or latch it was forgotten, or the
layer is a leftover.

## Example
```keys
actions
  digits-on = hold layer digits

layer digits
  A = 1

layer signs
  B = Minus

layer base
  C = digits-on
```

## Do instead
```keys
actions
  digits-on = hold layer digits

layer digits
  A = 1

layer base
  C = digits-on
```

## Reference
`grammar/README.md`, the blocks `actions` and `layer`.
"""

from collections.abc import Iterator

from matrixgen.model import BASE, Diagnostic, Layer, Problem, Severity, layer_turns
from matrixgen.rules.context import Context

PROBLEM = Problem("unreachable-layer", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each layer out of reach; of layers that only lead to each other, the first one."""
    entered = {layer.name.text: _enters(layer) for layer in context.keyboard.layers}
    told = _reach(BASE, entered)
    lost = [layer for layer in context.keyboard.layers if layer.name.text not in told]
    led_to = {name for layer in lost for name in entered[layer.name.text] - {layer.name.text}}
    for layer in sorted(lost, key=lambda layer: layer.name.text in led_to):
        name = layer.name.text
        if name not in told:
            told |= _reach(name, entered)
            yield PROBLEM.at(
                layer.name.span,
                f"no key reaches the layer `{name}`",
                help=f"give a key the action `hold layer {name}` or `latch layer {name}`",
                about=[name],
            )


def _enters(layer: Layer) -> set[str]:
    return {turn.layer for cell in layer.cells for turn in layer_turns(cell.action)}


def _reach(start: str, entered: dict[str, set[str]]) -> set[str]:
    """Return every layer that keys of `start`, of the layers they turn on, and so on, turn on."""
    found, waiting = {start}, [start]
    while waiting:
        new = entered[waiting.pop()] - found
        found |= new
        waiting += new
    return found
