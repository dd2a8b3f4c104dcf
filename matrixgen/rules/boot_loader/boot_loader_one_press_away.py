"""# boot loader one press away

## What it does
Finds a key of the base layer that starts the boot loader.

## Why it matters
One touch of that key, at any time, and the keyboard is gone until it is loaded or plugged in again.

## Example
```keys
actions
  update      = start boot loader

layer base
  C = update
```

## Do instead
Put it on a layer that another key holds.
```keys
actions
  update      = start boot loader
  more        = hold layer upper

layer base
  C = more

layer upper
  A = update
```

## Reference
`grammar/README.md`, the block `actions`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity, starts_boot_loader
from matrixgen.rules.context import Context

PROBLEM = Problem("boot-loader-one-press-away", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each such cell."""
    for cell in context.keyboard.layers[0].cells:
        if starts_boot_loader(cell.action):
            yield PROBLEM.at(
                cell.written.span,
                f"one press of `{cell.key}` starts the boot loader",
                help="put it on a layer that another key holds, or use `boot-loader hold`",
                about=[cell.key.text],
            )
