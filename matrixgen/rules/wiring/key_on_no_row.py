"""# key on no row

## What it does
Finds a key that no row wire visits.

## Why it matters
A key sits where its row wire and its column wire meet. Without a row it can never be seen.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A
  column c0          on PB0   A
  column c1          on PB1   B
```

## Do instead
Add the key to the row wire that is soldered to it, in soldering order.
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

PROBLEM = Problem("key-on-no-row", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each key off the rows; one that is off the columns too is reported here, once."""
    return keys_off(context, PROBLEM, "row")
