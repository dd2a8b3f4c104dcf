"""# knob without an action

## What it does
Finds a knob of which `layer base` says nothing: neither of its step to the left, nor to the right.

## Why it matters
The name of a key may say what it does, that of a knob does not. Without a cell its steps do nothing
on the base layer.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
  knob dial        on PB2 PB3

layer base
  A = 1
```

## Do instead
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
  knob dial        on PB2 PB3

layer base
  A          = 1
  dial.left  = VolumeDown
  dial.right = VolumeUp
```

If it is to work on other layers only, write `dial.left = nothing`.

## Reference
`grammar/README.md`, the section "Knobs".
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("knob-without-action", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each knob that the base layer gives no cell."""
    base = context.keyboard.layers[0].by_key
    for knob in context.keyboard.knobs:
        if not any(base[step].given for step in knob.steps):
            left, right = knob.steps
            yield PROBLEM.at(
                knob.name.span,
                f"`layer base` says nothing of the knob `{knob.name}`",
                help=f"write what its steps do, as in `{left} = VolumeDown  {right} = VolumeUp`",
                about=[knob.name.text],
            )
