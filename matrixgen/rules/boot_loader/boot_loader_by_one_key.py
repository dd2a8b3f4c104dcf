"""# boot loader by one key

## What it does
Finds a `boot-loader hold` with only one key.

## Why it matters
Keys are often held for a second, in games and while a page scrolls: the keyboard would be gone in
the middle of it. Two keys that nobody holds together do not happen by accident.

## Example
```keys
keyboard "Pad"
  controller  atmega32u4
  boot-loader hold A
```

## Do instead
```keys
keyboard "Pad"
  controller  atmega32u4
  boot-loader hold A C
```

## Reference
`grammar/README.md`, the block `keyboard`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("boot-loader-by-one-key", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding where fewer than two different keys are to be held."""
    hold = context.keyboard.boot_loader.hold
    if len({word.text for word in hold}) == 1:
        yield PROBLEM.at(
            hold[0].span,
            f"`{hold[0]}` would start the boot loader by itself",
            help="add a key that nobody holds down together with it",
        )
