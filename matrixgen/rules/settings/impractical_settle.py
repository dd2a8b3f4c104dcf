"""# settle time that is hardly useful

## What it does
Finds a settle time outside 1 to 100 µs.

## Why it matters
When a driven wire is released, a sensed one rises only by its pull-up, into the capacitance of wire
and diodes. If it is read too early, keys of the next wire seem pressed. Every wire waits this long,
so a long time slows the whole scan.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  settle 0.2 us
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

## Do instead
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  settle 4 us
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

## Reference
A pull-up of 50 kΩ into 80 pF has a time constant of 4 µs (calculated; planning figures for wire
and diodes, common practice, no source).
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import Context
from matrixgen.rules.settings.practical import impractical

PROBLEM = Problem("impractical-settle", Severity.WARNING, __doc__ or "")

PRACTICAL = (1, 100)
"""In us: the range that is of practical use (common practice, no source)."""


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding where the time given is outside of the practical range."""
    catches = ("the wires have not settled by then", "the whole scan is slow then")
    return impractical(PROBLEM, context.keyboard.wiring.settle_us, PRACTICAL, "µs", catches)
