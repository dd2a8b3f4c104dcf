"""# other hand of a key in the middle

## What it does
Finds a tap and hold with `other hand` on a key that belongs to neither hand, because it is in the
middle of the plate, or on keys of both hands that are one action together. On a very narrow plate
every key is in the middle.

## Why it matters
Every other key then counts as the other hand, and the words have no effect.

## Example
```keys
layer base
  B = tap B, hold Ctrl, other hand
```

## Do instead
```keys
layer base
  A = tap A, hold Ctrl, other hand
```

## Reference
`grammar/README.md`, the section "A tap and a hold", says which hand a key belongs to.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.model.hands import hands_of
from matrixgen.rules.context import Context
from matrixgen.rules.taps.deciding import deciding_cells

PROBLEM = Problem("other-hand-in-the-middle", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each such cell."""
    cells = [cell for cell in deciding_cells(context.keyboard) if cell.action.heeds_hands]
    hands = hands_of(context.keyboard.plate) if cells else {}
    for cell in cells:
        of_keys = {hands[key] for key in cell.key_names}
        if of_keys == {None} or len(of_keys) > 1:
            yield PROBLEM.at(
                cell.written.span,
                f"`{cell.key}` {_why(len(of_keys))}",
                help="leave `other hand` out",
                about=cell.key_names,
            )


def _why(hands: int) -> str:
    if hands > 1:
        return "are keys of both hands, and only that of the first one counts"
    return "is in the middle, so every other key counts as the other hand"
