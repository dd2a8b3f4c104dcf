"""# reserved pin

## What it does
Finds a wire, a light or a knob on a pin that the chip or the board needs for itself, or that is not
brought out: USB, reset, crystal, flash memory, an LED soldered to it.

## Why it matters
With a switch matrix on it, the controller does not start or does not answer on USB, or there is
nothing to solder the wire to.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0       A B
  column c0          on PB0       A
  column c1          on RESET     B
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
`matrixgen boards NAME` lists each pin and its function; the profile names the datasheet.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import MountedContext, spare_pin_help

PROBLEM = Problem("reserved-pin", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each use of a reserved pin."""
    for use in context.mounted.uses:
        if use.pin.use == "reserved":
            yield PROBLEM.at(
                use.word.span,
                f"{use.called} cannot be on `{use.pin.shown}`, which {use.pin.duty}",
                help=spare_pin_help(context),
            )
