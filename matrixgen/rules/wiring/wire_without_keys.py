"""# wire without keys

## What it does
Finds a row or column wire that visits no key.

## Why it matters
It costs a pin and a step of every scan, and does nothing. Often its keys were forgotten.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  row    r1          on PD1
  column c0          on PB0   A
  column c1          on PB1   B
```

## Do instead
Name the keys that it is soldered to, or remove the wire.
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

## Reference
`grammar/README.md`, the block `wiring`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("wire-without-keys", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each line with no visit."""
    for line in context.keyboard.wiring.lines:
        if not line.visits:
            yield PROBLEM.at(
                line.name.span,
                f"`{line.name}` visits no key",
                help=f"name the keys that `{line.name}` is soldered to, or remove it",
                about=[line.name.text],
            )
