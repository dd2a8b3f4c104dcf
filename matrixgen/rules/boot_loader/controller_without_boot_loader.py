"""# controller without a boot loader

## What it does
Finds keys that start the boot loader, in a file whose controller has none: its profile says
`"boot_loader_bytes": 0`, and its chip has none in ROM.

## Why it matters
The firmware would jump to flash without a program.

## Example
```keys
keyboard "Pad"
  controller  "three-pins.json"
  boot-loader hold A B

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on P1    A B
  column c0          on P2    A
  column c1          on X     B
```

## Do instead
Remove the statement: only a programmer loads such a chip.
```keys
keyboard "Pad"
  controller atmega32u4
```

## Reference
`boards/profile.schema.json`, the field `boot_loader_bytes`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.boot_loader.asked import asked_for
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("controller-without-boot-loader", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each place that asks for a boot loader which is not there."""
    if context.profile.has_boot_loader:
        return
    for span in asked_for(context.keyboard):
        yield PROBLEM.at(
            span,
            f"`{context.profile.name}` has no boot loader to start",
            help="remove it; if there is one, give its size in the profile's `boot_loader_bytes`",
        )
