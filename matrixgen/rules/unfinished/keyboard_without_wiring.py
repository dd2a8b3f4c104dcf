"""# keyboard without wiring

## What it does
Finds a file without the block `wiring`, when it is to be built.

## Why it matters
The firmware has to know where each key's wires meet. A plate is enough to plan with.

## Example
```keys whole
keyboard "Doorbell"
  controller stick-32u4

plate
  line A B
```

## Do instead
```keys whole
keyboard "Doorbell"
  controller stick-32u4

plate
  line A B

wiring
  diodes 1N4148, band toward columns
  row    r0          on PD1   A B
  column c0          on PD0   A
  column c1          on PD4   B
```

## Reference
`grammar/README.md`, the block `wiring`.
"""

from collections.abc import Iterator

from matrixgen.model import Problem, Severity
from matrixgen.rules.unfinished.open_point import OpenPoint, Unfinished

PROBLEM = Problem("keyboard-without-wiring", Severity.ERROR, __doc__ or "")


def look(draft: Unfinished) -> Iterator[OpenPoint]:
    """Yield one point where the file has no block `wiring`."""
    if not draft.design.keyboard.wiring.is_given:
        finding = PROBLEM.at(
            draft.design.head,
            "the file has no block `wiring`",
            help="write `wiring` in the first column, and below it a line for each wire",
        )
        yield OpenPoint("no wiring", finding)
