"""# key on two columns

## What it does
Finds a key that more than one column wire visits.

## Why it matters
The two wires are then connected at that key, so the firmware sees keys where none is pressed.
More often its name was typed instead of another key's, and the other key is on no column.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B A
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

## Reference
`grammar/README.md`, the block `wiring`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import Context
from matrixgen.rules.wiring.second_visits import second_visits

PROBLEM = Problem("key-on-two-columns", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each visit to a key by a second column, a third, and so on."""
    return second_visits(context, PROBLEM, "column")
