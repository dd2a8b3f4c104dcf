"""# controller that forgets

## What it does
Finds `remember base` in a file whose controller's firmware has no memory that survives a power cut.

## Why it matters
The base would be `layer base` again each time the keyboard is plugged in. A chip with EEPROM keeps
a byte in it; the RP2040 has only the flash that its program runs from, and its port does not write
to that.

## Example
```keys
keyboard "Pad"
  controller rp2040-40pin
  remember   base
```

## Do instead
```keys
keyboard "Pad"
  controller atmega32u4
  remember   base
```

## Reference
`matrixgen/families`, what each chip family can do.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("controller-that-forgets", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield one finding where the statement stands and can do nothing."""
    span = context.keyboard.remember_base
    family = context.profile.family_record
    if span and not (family and family.keeps_bytes):
        yield PROBLEM.at(
            span,
            f"`{context.profile.name}` forgets a changed base when it loses power",
            help="remove it, or use a controller with an AVR chip",
        )
