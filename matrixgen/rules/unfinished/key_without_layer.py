"""# key without a layer

## What it does
Finds a key whose name is not a usage name in a file without layers, when it is to be built.

## Why it matters
Such a key needs an action. While there is only a plate, or a plate and its wires, that can wait:
pins can be counted and wires laid out without it.

## Example
```keys whole
keyboard "Doorbell"
  controller stick-32u4

plate
  line A Fn

wiring
  diodes 1N4148, band toward columns
  row    r0          on PD1   A Fn
  column c0          on PD0   A
  column c1          on PD4   Fn
```

## Do instead
Give it an action in the base layer, or name it after what it does.
```keys whole
keyboard "Doorbell"
  controller stick-32u4

plate
  line A Fn

wiring
  diodes 1N4148, band toward columns
  row    r0          on PD1   A Fn
  column c0          on PD0   A
  column c1          on PD4   Fn

layer base
  Fn = hold layer bells

layer bells
  A = B
```

## Reference
`grammar/README.md`, layers. Once the file has a layer, it is an error: `key-without-action`.
"""

from collections.abc import Iterator

from matrixgen.model import Problem, Severity
from matrixgen.model.prose import named
from matrixgen.rules.unfinished.open_point import OpenPoint, Unfinished

PROBLEM = Problem("key-without-layer", Severity.ERROR, __doc__ or "")

FEW = 4
"""How many keys are named one by one in the summary of what is open."""


def look(draft: Unfinished) -> Iterator[OpenPoint]:
    """Yield a point for each key that has no action because there are no layers."""
    cells = {cell.key.text: cell for cell in draft.design.keyboard.layers[0].cells}
    idle = [
        key
        for key in draft.design.keyboard.keys
        if key.own_action is None and not cells[key.name.text].given
    ]
    names = [key.name.text for key in idle]
    for key in idle:
        missing = f"no action for {named(names, 'key', FEW)}"
        finding = PROBLEM.at(
            key.name.span,
            f"`{key.name}` is not a usage name, and the file has no layers yet",
            help=f"write `layer base` and below it `{key.name} = CELL`, or name the key after what "
            "it does",
        )
        yield OpenPoint(missing, finding)
