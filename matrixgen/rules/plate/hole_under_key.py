"""# screw hole under a key

## What it does
Finds a `hole` whose screw's head reaches into the cut-out of a switch, which is 14 mm square unless
`cut-out` says another size, turned with its cluster.

## Why it matters
The switch and the screw do not fit beside each other, and this shows only once the plate is cut.

## Example
```keys
plate
  line A B C
  hole at 1.25, 0.5
```

## Do instead
```keys
plate
  line A B C
  hole at 1, 1 for M2
```

## Reference
6 mm are the head of an M3 screw, 14 mm the cut-out of a switch, 19.05 mm one key unit: common
practice, no source. An M2.5 takes 5.4 mm, an M2 4.4 mm (heads of ISO 7045, and 0.4 mm more). Two
keys' cut-outs are 5.05 mm apart, so that only an M2 fits between them. A cut-out is in the middle
of its key. On the front a head needs more room: `screw-head-on-housing`, which also speaks of
stabilisers.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.model import Diagnostic, Hole, Key, Note, Problem, Severity
from matrixgen.model.prose import quoted
from matrixgen.rules.context import Context
from matrixgen.rules.plate.cut_outs import under_heads

PROBLEM = Problem("hole-under-key", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each hole that switches are in the way of: one, or the two that it lies between."""
    return (_found(hole, keys) for hole, keys in under_heads(context.keyboard.plate))


def _found(hole: Hole, keys: Sequence[Key]) -> Diagnostic:
    names = [key.name.text for key in keys]
    return PROBLEM.at(
        hole.span,
        f"the head of a screw in this hole reaches into the cut-out of {quoted(names)}",
        help="move it away from the keys, or take one `for M2` where four keys meet",
        notes=[Note(f"`{key.name}` is here", key.name.span) for key in keys],
        about=names,
    )
