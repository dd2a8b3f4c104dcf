"""# more wires than pins

## What it does
Compares the number of pins that the wires, lights and knobs need with the number that the
controller has.

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

from matrixgen.model import Diagnostic, Keyboard, Note, Problem, Severity, Span
from matrixgen.model.prose import counted
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("more-wires-than-pins", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield one finding where the budget does not hold, at the first line past it."""
    lines, others = context.keyboard.wiring.lines, context.keyboard.component_pins
    usable = len(context.profile.usable_pins)
    if len(lines) + others <= usable:
        return
    keys = sum(1 for _ in context.keyboard.keys)
    rows, columns = least_lines(keys)
    fits = rows + columns + others <= usable
    needed = f"{len(lines)} wires need a pin each"
    if others:
        needed += f", lights and knobs need {counted(others, 'pin')}"
    yield PROBLEM.at(
        _first_past(context.keyboard, usable),
        f"{needed}, and `{context.profile.name}` has {usable}",
        help=f"{keys} keys need no more than {rows} rows and {columns} columns"
        if fits
        else "choose a controller with more pins: `matrixgen boards` lists them",
        notes=[Note(f"needed {len(lines) + others}, usable {usable}, spare 0")],
    )


def _first_past(keyboard: Keyboard, usable: int) -> Span:
    """Return where the first line stands that has no pin, or else what else has none."""
    lines = keyboard.wiring.lines
    rest = keyboard.of_components
    return lines[usable].name.span if usable < len(lines) else rest[0].name.span


def least_lines(keys: int) -> tuple[int, int]:
    """Return how many rows and columns hold so many keys with the fewest lines in all."""
    rows = isqrt(max(keys, 1))
    return rows, -(-keys // rows)
