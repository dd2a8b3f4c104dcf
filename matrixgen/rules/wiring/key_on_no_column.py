"""# key on no column

## What it does
Finds a key that no column wire visits. A key that is on no row either is reported only as that.

## Why it matters
A key sits where its row wire and its column wire meet. Without a column it can never be seen.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
```

## Do instead
Add the key to the column wire that is soldered to it, in soldering order.
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
from matrixgen.rules.wiring.off_axis import keys_off

PROBLEM = Problem("key-on-no-column", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each key that is off the columns but on a row."""
    return keys_off(context, PROBLEM, "column")
