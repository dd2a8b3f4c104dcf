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

from matrixgen.model import Diagnostic, Problem, Severity, TapHold
from matrixgen.rules.context import Context
from matrixgen.rules.meanings.each_cell import first_of_kind

PROBLEM = Problem("tap-and-hold-alike", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each action both of whose parts are the same."""
    for action, cell, keys in first_of_kind(context.keyboard, TapHold):
        if action.tap == action.hold:
            yield PROBLEM.at(
                cell.written.span,
                f"a tap and a hold of `{cell.key}` both do `{action.tap.phrase}`",
                help=f"write only `{action.tap.phrase}`, which comes at once",
                about=keys,
            )
