"""# pin used twice

## What it does
Finds a pin used by more than one wire, light or knob, whether by its name or by its label.

## Why it matters
The two wires are then one wire, and their keys share crossings. A light on a wire's pin would
flicker as the wire is driven, and hold it high or low.

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

from matrixgen.boards.mounted import PinUse
from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import MountedContext, spare_pin_help

PROBLEM = Problem("pin-used-twice", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each use of a pin that is used already."""
    first: dict[str, PinUse] = {}
    for use in context.mounted.uses:
        owner = first.setdefault(use.pin.name, use)
        if owner is not use:
            yield PROBLEM.at(
                use.word.span,
                _message(use, owner),
                help=spare_pin_help(context),
                notes=[Note(f"{owner.called} uses it here", owner.word.span)],
            )


def _message(use: PinUse, owner: PinUse) -> str:
    if use.end is owner.end:
        return f"both pins of {use.called} are `{use.pin.shown}`"
    return f"{use.called} and {owner.called} are both on `{use.pin.shown}`"
