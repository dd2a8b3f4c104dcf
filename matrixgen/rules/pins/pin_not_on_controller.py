"""# pin that the controller lacks

## What it does
Finds a line that ends on a pin that the controller does not have, under its name in the datasheet
or its label on the board.

## Why it matters
The wire cannot be soldered, or it is soldered to another pin than the file says.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A B
  column c0 on PB0  A
  column c1 on PB9  B
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
`matrixgen boards NAME` lists a controller's pins; the profile names the datasheet.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.model.similar import suggestion
from matrixgen.rules.context import Context, spare_pin_help

PROBLEM = Problem("pin-not-on-controller", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each line on a pin unknown to the profile."""
    profile = context.profile
    for line in context.keyboard.wiring.lines:
        if line.pin and not profile.pin(line.pin.text):
            yield PROBLEM.at(
                line.pin.span,
                f"`{profile.name}` has no pin `{line.pin}`",
                help=suggestion(line.pin.text, profile.names) or spare_pin_help(context),
                notes=[Note(f"`matrixgen boards {_asked_as(context)}` lists its pins")],
            )


def _asked_as(context: Context) -> str:
    return context.profile.path or context.profile.name
