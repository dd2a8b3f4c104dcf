"""# pin used twice

## What it does
Finds a pin used by more than one wire, whether by its name or by its label.

## Why it matters
The two wires are then one wire, and their keys share crossings.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB0   B
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
`matrixgen boards NAME` lists a controller's pins.
"""

from collections.abc import Iterator

from matrixgen.boards.mounted import Wired
from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import MountedContext, spare_pin_help

PROBLEM = Problem("pin-used-twice", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each line on a pin that an earlier line has taken."""
    first: dict[str, Wired] = {}
    for wired in context.mounted.wired:
        owner = first.setdefault(wired.pin.name, wired)
        if owner is not wired:
            yield PROBLEM.at(
                wired.word.span,
                f"`{wired.line.name}` and `{owner.line.name}` are both on `{wired.pin.shown}`",
                help=spare_pin_help(context),
                notes=[Note(f"`{owner.line.name}` uses it here", owner.word.span)],
            )
