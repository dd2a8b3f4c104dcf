"""# settle time that is too short

## What it does
Finds a `settle` time that is shorter than a sensed wire may need.

## Why it matters
When a driven wire is released, a sensed wire rises only by its pull-up. If it is read before it is
high again, a key of the next driven wire seems pressed that is not.

## Example
```keys
keyboard "Pad"
  controller rp2040

plate
  line A B
  line C D

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  settle 1 us
  row    r0          on GPIO0     A B
  row    r1          on GPIO1     C D
  column c0          on GPIO2     A C
  column c1          on GPIO3     B D
```

## Do instead
Leave the statement out: the firmware then waits as long as the slowest wire needs.
```keys
keyboard "Pad"
  controller rp2040

plate
  line A B
  line C D

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on GPIO0     A B
  row    r1          on GPIO1     C D
  column c0          on GPIO2     A C
  column c1          on GPIO3     B D
```

## Reference
t = -R C ln(1 - V_IH / V_CC), with the weakest pull-up and the capacitance of pin, diodes and wire:
`matrixgen figures FILE` shows each figure with its source.
"""

from collections.abc import Iterator

from matrixgen.circuit.units import shown
from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import MountedContext
from matrixgen.rules.settings.impractical_settle import PRACTICAL

PROBLEM = Problem("settle-too-short", Severity.WARNING, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield one finding a controller where its slowest line needs longer."""
    given = context.keyboard.wiring.settle_us
    if given is not None and given.value < PRACTICAL[0]:
        return  # impractical-settle says so
    slowest = context.settling.slowest if given else None
    if given is None or slowest is None or slowest.seconds * 1e6 <= given.value:
        return
    line = slowest.line
    yield PROBLEM.at(
        given.span,
        f"`{line.name}` may need {shown(slowest.seconds, 's')} on `{context.profile.name}`, "
        f"and `settle` gives it {given.value:g} µs",
        help="leave `settle` out: the firmware then waits as long as it must",
        notes=[
            Note(
                f"{shown(slowest.farad, 'F')} rise through {shown(slowest.ohm, 'ohm')} "
                f"to {shown(slowest.high_min, 'V')}"
            )
        ],
        about=[line.name.text, context.profile.name],
    )
