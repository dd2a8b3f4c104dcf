"""# diodes not stated

## What it does
Finds a block `wiring` without the direction of its diodes.

## Why it matters
With the bands the wrong way no key is ever seen. Without the statement this cannot be checked, and
the pin table cannot show it to the person who solders.

## Example
```keys
wiring
  drive columns, sense rows
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

## Do instead
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```
For a keyboard without diodes, write `without diode` and then the name of every key.

## Reference
`grammar/README.md`, the block `wiring`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("diodes-not-stated", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding, unless every key is said to have no diode."""
    wiring = context.keyboard.wiring
    if wiring.diodes or not wiring.is_given or not context.keyboard.wants_diodes:
        return
    yield PROBLEM.at(
        wiring.drive_span,
        "the wiring does not say which way the diodes point",
        help=f"add `diodes 1N4148, band toward {wiring.drive}s`, with your own diode's name",
        notes=[Note("without any diodes, write `without diode` and the names of all keys")],
    )
