"""# controller over a hole

## What it does
Finds a controller, placed by `controller at X, Y`, whose board lies behind a screw hole or reaches
into the room of a screw's head.

## Why it matters
The screw or its nut meets the board, and metal there joins what it touches.

## Example
```keys
keyboard "Pad"
  controller stick-32u4

plate
  line A B C
  hole       at 4, 0.5
  controller at 4, 0
```

## Do instead
```keys
keyboard "Pad"
  controller stick-32u4

plate
  line A B C
  hole       at 4, 2.5
  controller at 4, 0
```

Or put the board on spacers, with a sheet of plastic below, and `allow controller-over-hole`.

## Reference
Screws' heads: M3 6 mm (common practice, no source), M2 4.4 and M2.5 5.4 mm (heads of ISO 7045, and
0.4 mm more). The outlines of boards are in their profiles, with their sources; where a profile has
none, nothing is found.
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Hole, Note, Problem, Severity
from matrixgen.model.convex import convex, disc, overlap
from matrixgen.model.switch import middle_mm
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("controller-over-hole", Severity.WARNING, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield the place, if a screw is before the board."""
    board = context.board
    if board is None:
        return
    shape = convex(board.corners)
    for hole in context.keyboard.plate.holes:
        if overlap(shape, disc(middle_mm(hole), hole.screw.head_mm, 16)):
            yield _found(context, hole)


def _found(context: MountedContext, hole: Hole) -> Diagnostic:
    place = context.keyboard.plate.controller
    assert place
    return PROBLEM.at(
        hole.span,
        f"the board of `{context.profile.name}` lies behind this screw hole",
        help="move one of them",
        notes=[Note("the board is here", place.span)],
        about=[context.profile.name],
    )
