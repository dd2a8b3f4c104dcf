"""# keyboard without a name

## What it does
Finds a file without the block `keyboard`, when it is to be built.

## Why it matters
The name is what the keyboard is called on USB and at the top of its pin table.

## Example
```keys whole
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
`grammar/README.md`, the block `keyboard`.
"""

from collections.abc import Iterator

from matrixgen.model import Problem, Severity
from matrixgen.rules.unfinished.open_point import OpenPoint, Unfinished

PROBLEM = Problem("keyboard-without-name", Severity.ERROR, __doc__ or "")


def look(draft: Unfinished) -> Iterator[OpenPoint]:
    """Yield one point where the file has no block `keyboard`."""
    if draft.design.keyboard.identity.name is None:
        finding = PROBLEM.at(
            draft.design.head,
            "the file has no block `keyboard`, so the keyboard has no name",
            help='write `keyboard "NAME"` in the first column, and its settings below',
        )
        yield OpenPoint("no name", finding)
