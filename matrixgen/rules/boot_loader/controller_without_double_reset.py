"""# controller without double reset

## What it does
Finds `boot-loader double reset` in a file whose controller cannot tell one reset from two.

## Why it matters
On boards with AVR chips a reset starts the boot loader itself, and only that decides when the
firmware runs. The statement would do nothing.

## Example
```keys
keyboard "Pad"
  controller  atmega32u4
  boot-loader double reset
```

## Do instead
```keys
keyboard "Pad"
  controller  atmega32u4
  boot-loader hold A C
```

## Reference
`matrixgen/families`, what each chip family can do.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("controller-without-double-reset", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield one finding where the statement stands and can do nothing."""
    span = context.keyboard.boot_loader.double_reset
    family = context.profile.family_record
    if span and not (family and family.double_reset):
        yield PROBLEM.at(
            span,
            f"the firmware of `{context.profile.name}` cannot tell two resets from one",
            help="use `boot-loader hold` and two keys; a reset may start the boot loader by itself",
        )
