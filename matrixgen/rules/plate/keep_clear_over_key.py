"""# keep-clear area over a key

## What it does
Finds a `keep clear` whose rectangle covers part of the cut-out of a switch, which is 14 mm square
unless `cut-out` says another size, turned with its cluster. Touching is fine.

## Why it matters
Wires have to reach the legs of a switch, so nothing can be kept clear there. Most often the area's
position was meant as its middle, or millimetres were written for key units.

## Example
```keys
plate
  line A ~2  B C
  keep clear 0.5, 0, 2, 1
```

## Do instead
```keys
plate
  line A ~2  B C
  keep clear 1, 0, 2, 1
```

## Reference
14 mm are the cut-out of a switch, 19.05 mm one key unit: common practice, no source. A cut-out is
in the middle of its key.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.model import Area, Diagnostic, Key, Note, Problem, Severity
from matrixgen.model.prose import named
from matrixgen.rules.context import Context
from matrixgen.rules.plate.cut_outs import under_areas

PROBLEM = Problem("keep-clear-over-key", Severity.ERROR, __doc__ or "")

FEW = 4
"""How many covered keys a finding names."""


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each area that covers cut-outs, once for all of them."""
    return (_found(area, keys) for area, keys in under_areas(context.keyboard.plate))


def _found(area: Area, keys: Sequence[Key]) -> Diagnostic:
    names = [key.name.text for key in keys]
    return PROBLEM.at(
        area.span,
        f"this area covers the cut-out of {named(names, 'key', FEW)}",
        help="its numbers are its upper left corner, from that of the plate, its width and its "
        "height, in key units",
        notes=[Note(f"`{key.name}` is here", key.name.span) for key in keys[:FEW]],
        about=names,
    )
