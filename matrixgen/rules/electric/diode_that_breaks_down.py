"""# diode that breaks down

## What it does
Finds a diode that does not block the controller's supply in reverse, such as a Zener diode.

## Why it matters
Between two driven wires, or two sensed ones, the diodes of pressed keys have to block the supply. A
diode that lets current through in reverse makes ghosts, as if it were missing. Small glass Zener
diodes look just like a 1N4148.

## Example
```keys
keyboard "Pad"
  controller stick-32u4

plate
  line A B

wiring
  drive columns, sense rows
  diodes BZX55C3V3, band toward columns
  row    r0          on PD0   A B
  column c0          on PD1   A
  column c1          on PD4   B
```

## Do instead
```keys
keyboard "Pad"
  controller stick-32u4

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PD1   A
  column c1          on PD4   B
```

## Reference
A Zener diode conducts in reverse above its voltage, and one below 5 V well before that: see the
figures of `boards/diodes.json` and their sources.
"""

from collections.abc import Iterator

from matrixgen.boards import USUAL_DIODE
from matrixgen.circuit.units import shown
from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("diode-that-breaks-down", Severity.WARNING, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield one finding a controller whose supply the diode does not block."""
    diode, stated = context.mounted.diode, context.keyboard.wiring.diodes
    supply = max(context.profile.supplies)
    if diode is None or stated is None or diode.reverse_volts >= supply:
        return
    yield PROBLEM.at(
        stated.part.span,
        f"{diode.name} is only sure to block {shown(diode.reverse_volts, 'V')}, "
        f"and the supply of `{context.profile.name}` may be {shown(supply, 'V')}",
        help=f"use a switching diode such as {USUAL_DIODE}",
        notes=[Note(diode.title)],
        about=[stated.part.text, context.profile.name],
    )
