"""# wiring without rows or without columns

## What it does
Finds a wiring without any row wire, or without any column wire, when it is to be built.

## Why it matters
The firmware pulls the rows low and reads the columns, or the other way round. If either is missing
there is nothing to pull or nothing to read, and no key can be seen.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row r0          on PD0   A B
```

## Do instead
Even a handful of keys needs both: one row that visits all keys, and a column for each key.
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

from matrixgen.model import AXES, Problem, Severity
from matrixgen.rules.unfinished.open_point import OpenPoint, Unfinished

PROBLEM = Problem("wiring-without-wires", Severity.ERROR, __doc__ or "")


def look(draft: Unfinished) -> Iterator[OpenPoint]:
    """Yield one point an axis that has no line."""
    wiring = draft.design.keyboard.wiring
    for axis in AXES if wiring.is_given else ():
        if not wiring.of_axis(axis):
            finding = PROBLEM.at(
                wiring.keyword,
                f"the wiring has no {axis}",
                help=f"add a line such as `{axis} {axis[0]}0 on PIN  KEY KEY`",
            )
            yield OpenPoint(f"no {axis}s", finding)
