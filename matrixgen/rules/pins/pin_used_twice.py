"""# pin used twice

## What it does
Finds a pin that more than one line ends on, be it under its name or under its label.

## Why it matters
The two lines are then one, and all their keys sit at the same crossings.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A B
  column c0 on PB0  A
  column c1 on PB0  B
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

from matrixgen.model import Diagnostic, Line, Note, Problem, Severity, Word
from matrixgen.rules.context import Context, spare_pin_help

PROBLEM = Problem("pin-used-twice", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each line on a pin that an earlier line has taken."""
    first: dict[str, tuple[Line, Word]] = {}
    for line, word, pin in context.pins:
        owner, place = first.setdefault(pin.name, (line, word))
        if owner is not line:
            yield PROBLEM.at(
                word.span,
                f"`{line.name}` and `{owner.name}` are both on `{pin.shown}`",
                help=spare_pin_help(context),
                notes=[Note(f"`{owner.name}` takes it here", place.span)],
            )
