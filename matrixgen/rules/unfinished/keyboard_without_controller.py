"""# keyboard without a controller

## What it does
Finds a file that names no controller, when it is to be built.

## Why it matters
Firmware is made for one chip, and a wire ends on a pin of one controller. Until then everything
that does not depend on it can be checked.

## Example
```keys whole
keyboard "Doorbell"

plate
  line A B

wiring
  diodes 1N4148, band toward columns
  row    r0           A B
  column c0           A
  column c1           B
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
`matrixgen boards` lists the controllers.
"""

from collections.abc import Iterator

from matrixgen.model import Problem, Severity
from matrixgen.rules.unfinished.open_point import OpenPoint, Unfinished

PROBLEM = Problem("keyboard-without-controller", Severity.ERROR, __doc__ or "")


def look(draft: Unfinished) -> Iterator[OpenPoint]:
    """Yield one point where the file names no controller."""
    if not draft.design.controllers:
        finding = PROBLEM.at(
            draft.design.head,
            "the file names no controller",
            help="add a line `controller NAME` to the block `keyboard`; `matrixgen boards` lists "
            "the names",
        )
        yield OpenPoint("no controller", finding)
