"""# driven line on a pin that cannot be pulled low

## What it does
Finds a driven wire on a pin that can only be read.

## Why it matters
The firmware pulls each driven wire low in turn. On such a pin it cannot, and no key of the wire is
ever seen.

## Example
```keys
keyboard "Pad"
  controller "three-pins.json"  # its profile says of the pin X: "output": false

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on P1  A B
  column c0 on X   A
  column c1 on P2  B
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
`matrixgen boards NAME` lists what each pin can do.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("pin-without-output", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each driven line on such a pin; a reserved pin has its own finding."""
    for wired in context.mounted.wired:
        line, pin = wired.line, wired.pin
        if context.is_driven(line) and pin.is_usable and not pin.output:
            able = next((spare for spare in context.mounted.spare_pins if spare.output), None)
            yield PROBLEM.at(
                wired.word.span,
                f"`{line.name}` is driven, and `{pin.shown}` cannot pull it low",
                help=f"`{able.name}` is spare and can pull a line low" if able else None,
                notes=[Note("`drive` stands here", context.keyboard.wiring.drive_span)],
            )
