"""# scan too slow for USB

## What it does
Finds a matrix whose scan takes so long that the computer gives up on the keyboard: many driven
wires times a long `settle`.

## Why it matters
The firmware looks at USB between two scans. A computer gives a device 2 ms to answer to its
address. A keyboard that is still scanning then is taken for a broken one, and never types. Even a
shorter scan makes each key late.

## Example
```keys
keyboard "Pad"
  controller atmega32u4

plate
  line A B C D

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  settle 900 us
  row    r0          on PD0   A to D
  column c0          on PB0   A
  column c1          on PB1   B
  column c2          on PB2   C
  column c3          on PB3   D
```

## Do instead
Leave `settle` out: the firmware then waits as long as it must. Or drive the rows or the columns,
whichever are fewer.
```keys
keyboard "Pad"
  controller atmega32u4

plate
  line A B C D

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A to D
  column c0          on PB0   A
  column c1          on PB1   B
  column c2          on PB2   C
  column c3          on PB3   D
```

## Reference
USB 2.0 section 9.2.6.3: 2 ms from the end of the request that sets an address to an answer at that
address. `matrixgen figures FILE` shows what a turn of the firmware's loop is made of.
"""

from collections.abc import Iterator

from matrixgen.circuit.timing import Timing, total
from matrixgen.circuit.units import shown
from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("scan-too-slow", Severity.ERROR, __doc__ or "")

MOST_US = 2000
"""Longest turn of the main loop (USB 2.0 section 9.2.6.3)."""


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield one finding a controller on which a turn of the main loop is too long."""
    given, settle_us = context.keyboard.wiring.settle_us, context.settling.firmware_us
    if len(context.matrix.drives) * settle_us < MOST_US / 2:  # all else of a turn takes far less
        return
    turn = Timing(context.mounted, context.matrix, settle_us).turn
    if turn is None or total(turn) <= MOST_US:
        return
    place = given.span if given else context.mounted.controller.span
    yield PROBLEM.at(
        place,
        f"a scan takes {shown(total(turn) / 1e6, 's')} on `{context.profile.name}`, and the "
        f"computer waits at most {MOST_US / 1000:g} ms",
        help="leave `settle` out: the firmware then waits as long as it must"
        if given
        else "drive the rows or the columns, whichever are fewer",
        notes=[Note(f"{len(context.matrix.drives)} driven wires, {settle_us} µs each to settle")],
        about=[context.profile.name],
    )
