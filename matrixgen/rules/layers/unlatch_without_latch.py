"""# unlatch without a latch

## What it does
Finds a key that only turns layers off, where no key leaves a layer on for it.

## Why it matters
The key does nothing. Most often the key that should latch a layer was forgotten, or holds it now.

## Example
```keys
layer base
  B = unlatch layers  C = hold layer digits

layer digits
  A = 1
```

## Do instead
```keys
layer base
  B = unlatch layers  C = latch layer digits

layer digits
  A = 1
```

## Reference
`grammar/README.md`, the block `actions`.
"""

from collections.abc import Iterator

from matrixgen.model import (
    Cell,
    Diagnostic,
    Keyboard,
    Problem,
    Severity,
    Together,
    layer_turns,
    with_parts,
)
from matrixgen.rules.context import Context

PROBLEM = Problem("unlatch-without-latch", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield the first cell that ends layers which nothing turns on like that."""
    cells = list(_idle(context.keyboard))
    if cells:
        yield PROBLEM.at(
            cells[0].written.span,
            f"`{cells[0].key}` turns off what stays on by itself, and no key leaves a layer on",
            help="give a key `latch layer NAME` or `once layer NAME`, or this one another action",
            about=tuple(dict.fromkeys(key for cell in cells for key in cell.key_names)),
        )


def _idle(keyboard: Keyboard) -> Iterator[Cell | Together]:
    """Yield each cell of which a part turns layers off, and none that could be on."""
    turns = {(t.layer, t.lasts) for cell in keyboard.cells for t in layer_turns(cell.action)}
    left_on = turns | {(None, lasts) for _, lasts in turns}
    for cell in keyboard.cells:
        for part in with_parts(cell.action):
            ends = {(end.layer, end.lasts) for end in part.turns_off}
            if ends and not ends & left_on:
                yield cell
                break
