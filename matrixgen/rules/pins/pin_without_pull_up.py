"""# sensed wire on a pin without a pull-up

## What it does
Finds a sensed wire on a pin that has no internal pull-up.

## Why it matters
A sensed wire rests high by the pin's own pull-up. Without one it floats, and keys are seen at
random.

## Example
```keys
keyboard "Pad"
  controller "three-pins.json"  # its profile says of the pin X: "pull_up": false

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on X     A B
  column c0          on P1    A
  column c1          on P2    B
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
`matrixgen boards NAME` lists what each pin can do.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Knob, Problem, Severity
from matrixgen.rules.context import MountedContext
from matrixgen.rules.pins.unable import unable_pins

PROBLEM = Problem("pin-without-pull-up", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each sensed line and each knob on such a pin; a reserved pin has its own finding."""
    yield from unable_pins(
        context,
        PROBLEM,
        is_driven=False,
        can=lambda pin: pin.pull_up,
        lacks="has no pull-up",
        has="has a pull-up",
    )
    for use in context.mounted.uses:
        if isinstance(use.end, Knob) and use.pin.is_usable and not use.pin.pull_up:
            spare = next((pin for pin in context.mounted.spare_pins if pin.pull_up), None)
            yield PROBLEM.at(
                use.word.span,
                f"{use.called} closes a contact to ground, and `{use.pin.shown}` has no pull-up",
                help=f"`{spare.name}` is spare and has a pull-up" if spare else None,
            )
