"""# more wires than pins

## What it does
Compares the number of pins that the wires need with the number that the controller has.

## Why it matters
The other wires would have nowhere to go. It is the first thing to know about a wiring, before you
buy a controller.

## Example
```keys
keyboard "Pad"
  controller stick-32u4

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PD1   A
  column c1          on PD2   B
  column c2          on PD3
  column c3          on PD4
  column c4          on PD7
  column c5          on PE6
  column c6          on PC6
  column c7          on PB1
  column c8          on PB2
  column c9          on PB3
  column c10         on PB4
  column c11         on PB5
  column c12         on PB6
  column c13         on PF4
  column c14         on PF5
  column c15         on PF6
  column c16         on PF7
  column c17
```

## Do instead
Make the matrix more nearly square, or use a controller with more pins.
```keys
keyboard "Pad"
  controller stick-32u4

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PD1   A
  column c1          on PD2   B
```

## Reference
A square matrix needs the fewest pins: rows plus columns is least when both numbers are equal
(arithmetic). `matrixgen boards` lists how many pins each controller has.
"""

from collections.abc import Iterator
from math import isqrt

from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("more-wires-than-pins", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield one finding where the budget does not hold, at the first line past it."""
    lines = context.keyboard.wiring.lines
    usable = len(context.profile.usable_pins)
    if len(lines) <= usable:
        return
    keys = sum(1 for _ in context.keyboard.keys)
    rows, columns = least_lines(keys)
    fits = rows + columns <= usable
    yield PROBLEM.at(
        lines[usable].name.span,
        f"{len(lines)} wires need a pin each, and `{context.profile.name}` has {usable}",
        help=f"{keys} keys need no more than {rows} rows and {columns} columns"
        if fits
        else "choose a controller with more pins: `matrixgen boards` lists them",
        notes=[Note(f"needed {len(lines)}, usable {usable}, spare 0")],
    )


def least_lines(keys: int) -> tuple[int, int]:
    """Return how many rows and columns hold so many keys with the fewest lines in all."""
    rows = isqrt(max(keys, 1))
    return rows, -(-keys // rows)
