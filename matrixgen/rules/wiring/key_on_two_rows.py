"""# key on two rows

## What it does
Finds a key that more than one row wire visits.

## Why it matters
The two wires are then connected at that key, so the firmware sees keys where none is pressed.
More often its name was typed instead of another key's, and the other key is on no row.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A
  row    r1          on PD1   B A
  column c0          on PB0   A B
```

## Do instead
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A
  row    r1          on PD1   B
  column c0          on PB0   A B
```

## Reference
`grammar/README.md`, the block `wiring`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import Context
from matrixgen.rules.wiring.second_visits import second_visits

PROBLEM = Problem("key-on-two-rows", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each visit to a key by a second row, a third, and so on."""
    return second_visits(context, PROBLEM, "row")
