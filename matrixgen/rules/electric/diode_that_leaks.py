"""# diode that leaks

## What it does
Finds a controller and a diode with which an idle wire is not sure to read high in the heat. In the
worst case so much current leaks backwards through the diodes of pressed keys that the sensed pin
falls below the level that the chip is sure to read as high.

## Why it matters
A Schottky diode drops little and leaks much, and twice as much with every ten degrees. Internal
pull-ups of 50 to 80 kΩ let a wire fall by a volt for every 15 µA. On a hot day, with many keys
down, keys then seem pressed that are not.

## Example
```keys
keyboard "Pad"
  controller rp2040-40pin

plate
  line A B
  line C D
  line E F
  line G H
  line I J

wiring
  drive columns, sense rows
  diodes BAT85, band toward columns
  row    r0          on GP0   A B
  row    r1          on GP1   C D
  row    r2          on GP2   E F
  row    r3          on GP3   G H
  row    r4          on GP4   I J
  column c0          on GP5   A C E G I
  column c1          on GP6   B D F H J
```

## Do instead
Use a silicon diode where the low level allows it, or a Schottky diode that leaks less. Most parts
leak a tenth of the maximum in their datasheet: if you know yours, write `allow diode-that-leaks`.
```keys
keyboard "Pad"
  controller rp2040-40pin

plate
  line A B
  line C D
  line E F
  line G H
  line I J

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on GP0   A B
  row    r1          on GP1   C D
  row    r2          on GP2   E F
  row    r3          on GP3   G H
  row    r4          on GP4   I J
  column c0          on GP5   A C E G I
  column c1          on GP6   B D F H J
```

## Reference
Kirchhoff's current law, with the largest reverse current of the diode's datasheet at 50 degrees
Celsius, the weakest pull-ups, the worst supply and up to ten keys down, against V_IH of the chip's
datasheet: `matrixgen figures FILE` shows each figure with its source.
"""

from collections.abc import Iterator

from matrixgen.boards import USUAL_DIODE
from matrixgen.circuit.leakage import HighLevel, Leakage
from matrixgen.circuit.over_supply import LevelsOverSupply
from matrixgen.circuit.planned import WARMEST_CELSIUS
from matrixgen.circuit.units import shown
from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.model.prose import counted
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("diode-that-leaks", Severity.WARNING, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield one finding a controller: the line that falls farthest below what reads high."""
    stated, levels = context.keyboard.wiring.diodes, context.levels
    if stated is None or levels is None:
        return
    leakage = Leakage(context.mounted, context.matrix, levels.diode)
    worst = leakage.worst
    if worst is None or worst.margin >= 0:
        return
    at = context.pin_called(worst.line)
    yield PROBLEM.at(
        stated.part.span,
        f"{leakage.diode.name} diodes may leak so much that {at} falls to "
        f"{shown(worst.volts, 'V')} although no key of its wire is read, and "
        f"`{context.profile.name}` is only sure to read high from {shown(worst.limit, 'V')}",
        help=_help(levels),
        notes=[Note(_worst_case(worst, leakage))],
        about=[stated.part.text, context.profile.name],
    )


def _worst_case(worst: HighLevel, leakage: Leakage) -> str:
    return (
        f"in the worst case, {WARMEST_CELSIUS.value:g} degrees Celsius, a supply of "
        f"{shown(worst.supply, 'V')} and {counted(worst.keys, 'key')} down: {worst.diodes} of "
        f"their diodes leak {shown(worst.ampere, 'A')} each, the maximum of the "
        f"{leakage.diode.name}, against a pull-up of {shown(worst.feed.ohm, 'ohm')}"
    )


def _help(levels: LevelsOverSupply) -> str:
    other = levels.with_a_sure_diode
    if other is None:
        return f"use a diode that leaks less, such as {USUAL_DIODE}"
    return f"use {other.diode.name} diodes: with them, low and high levels are both sure"
