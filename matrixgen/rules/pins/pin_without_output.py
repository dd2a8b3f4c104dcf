"""# driven wire or light on a pin that cannot be driven

## What it does
Finds a driven wire, or a light, on a pin that can only be read.

## Why it matters
The firmware pulls each driven wire low in turn. On such a pin it cannot, and no key of the wire is
ever seen; a light is never lit.

## Example
```keys
keyboard "Pad"
  controller "three-pins.json"  # its profile says of the pin X: "output": false

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on P1    A B
  column c0          on X     A
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

from matrixgen.model import Diagnostic, Light, Problem, Severity
from matrixgen.rules.context import MountedContext, spare_pin_help
from matrixgen.rules.pins.unable import unable_pins

PROBLEM = Problem("pin-without-output", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each driven line and light on such a pin; a reserved pin has its own finding."""
    yield from unable_pins(
        context,
        PROBLEM,
        is_driven=True,
        can=lambda pin: pin.output,
        lacks="cannot pull it low",
        has="can pull a wire low",
    )
    for use in context.mounted.uses:
        if isinstance(use.end, Light) and use.pin.is_usable and not use.pin.output:
            yield PROBLEM.at(
                use.word.span,
                f"{use.called} is on `{use.pin.shown}`, which can only be read",
                help=spare_pin_help(context),
            )
