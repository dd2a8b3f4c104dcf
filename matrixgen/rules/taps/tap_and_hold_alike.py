"""# tap and hold that do the same

## What it does
Finds a key whose tap and hold are the same action.

## Why it matters
The key waits until it is decided between tap and hold, and then does the same: it only comes later.

## Example
```keys
layer base
  C = tap A, hold A
```

## Do instead
```keys
layer base
  C = A
```

## Reference
`grammar/README.md`, the section "A tap and a hold".
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import Context
from matrixgen.rules.taps.deciding import first_of_each

PROBLEM = Problem("tap-and-hold-alike", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each action both of whose parts are the same."""
    for cell, keys in first_of_each(context.keyboard):
        tap, hold = cell.action.parts
        if tap == hold:
            yield PROBLEM.at(
                cell.written.span,
                f"a tap and a hold of `{cell.key}` both do `{tap.phrase}`",
                help=f"write only `{tap.phrase}`, which comes at once",
                about=keys,
            )
