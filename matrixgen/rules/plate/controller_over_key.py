"""# controller over a key

## What it does
Finds a controller, placed by `controller at X, Y`, whose board lies behind a switch.

## Why it matters
The legs of the switch stand out behind the plate, and joints and diodes lie on them. A board that
lies flat against them is short-circuited, and nobody gets at those joints any more.

## Example
```keys
keyboard "Pad"
  controller stick-32u4

plate
  line A B C
  controller at 1.5, 0
```

## Do instead
```keys
keyboard "Pad"
  controller stick-32u4

plate
  line A B C
  controller at 4, 0
```

Or put the board on spacers behind the switches, with a sheet of plastic in between, and `allow
controller-over-key`. Solder the joints below it first.

## Reference
Legs reach some 7 mm below a plate of 1.5 mm, and a diode and a wire 2 to 3 mm more (from memory).
The outlines of boards are in their profiles, with their sources; where a profile has none, nothing
is found.
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.model.prose import named
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("controller-over-key", Severity.WARNING, __doc__ or "")

FEW = 4
"""How many switches the finding names."""


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield the place, if switches are before the board."""
    place, board = context.keyboard.plate.controller, context.board
    if place is None or board is None or board.is_between_keys:
        return
    names = [key.name.text for key in board.behind]
    yield PROBLEM.at(
        place.span,
        f"the board of `{context.profile.name}` lies behind {named(names, 'switch', FEW)}",
        help="leave a gap in the plate for it, or put it on spacers above the joints, with a sheet "
        "of plastic in between",
        notes=[Note(f"`{board.behind[0].name}` is here", board.behind[0].name.span)],
        about=[*names, context.profile.name],
    )
