"""# line without a pin

## What it does
Finds a row or column wire that ends on no pin of the controller.

## Why it matters
The firmware has to know which pin each wire is soldered to.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A B
  column c0 on PB0  A
  column c1  B
```

## Do instead
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A B
  column c0 on PB0  A
  column c1 on PB1  B
```

## Reference
`matrixgen boards NAME` lists a controller's pins.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("line-without-pin", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each line with no pin, with a spare one each; those past the budget have their rule."""
    spare = iter(context.spare_pins)
    for line in context.keyboard.wiring.lines:
        if line.pin is None:
            pin = next(spare, None)
            if pin is None:
                return  # more-lines-than-pins speaks of the rest
            yield PROBLEM.at(
                line.name.span,
                f"`{line.name}` is on no pin",
                help=f"add `on {pin.name}`, which is spare",
            )
