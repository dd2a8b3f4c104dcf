"""# presses that do the same

## What it does
Finds a key whose second press does the same as its first, or whose third does the same as its
second.

## Why it matters
After each press but the last, the key waits whether another one follows. If that does the same, the
wait only makes the key late, and pressing it twice does it once.

## Example
```keys
layer base
  C = first A, second A
```

## Do instead
```keys
layer base
  C = A
```

## Reference
`grammar/README.md`, the section "First, second, third".
"""

from collections.abc import Iterator
from itertools import pairwise

from matrixgen.model import Diagnostic, FirstSecond, Problem, Severity
from matrixgen.model.actions.first_second import MEANINGS
from matrixgen.rules.context import Context
from matrixgen.rules.meanings.each_cell import first_of_kind

PROBLEM = Problem("presses-alike", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each action with two presses after each other that do the same."""
    for action, cell, keys in first_of_kind(context.keyboard, FirstSecond):
        for place, (one, other) in enumerate(pairwise(action.parts)):
            if one == other:
                names = MEANINGS[place : place + 2]
                yield PROBLEM.at(
                    cell.written.span,
                    f"the {names[0]} and {names[1]} press of `{cell.key}` both do `{one.phrase}`",
                    help=f"leave the {names[1]} press out, or let it do something else"
                    if len(action.parts) > 2
                    else f"write only `{one.phrase}`, which comes at once",
                    about=keys,
                )
