"""# light that may be too dim

## What it does
Finds a light of which the supply leaves so little for its resistor that it may have less than a
fifth of the current that it is to have at the most.

## Why it matters
The current of an LED is set by what is left of the supply: where that is half a volt or less, the
LED's own spread decides how bright it is, and whether it is lit at all. So it is with blue, white
and some green ones at 3.3 V.

## Example
```keys
keyboard "Pad"
  controller rp2040-40pin

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on GP0   A B
  column c0          on GP1   A
  column c1          on GP2   B
  light CapsLock    on GP3  blue
```

## Do instead
Take a red or yellow LED, or, if you have its datasheet, say its forward voltage.
```keys
keyboard "Pad"
  controller rp2040-40pin

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on GP0   A B
  column c0          on GP1   A
  column c1          on GP2   B
  light CapsLock    on GP3  red
```

## Reference
Ohm's law. Forward voltages by colour: `grammar/README.md`, the section "Lights". `matrixgen figures
FILE` shows each current.
"""

from collections.abc import Iterator

from matrixgen.circuit.lights import LightCurrent, light_currents
from matrixgen.circuit.units import shown
from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("light-too-dim", Severity.WARNING, __doc__ or "")

DIM = 0.2
"""The share of its greatest current below which a light is dim (a choice)."""


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each light that may have too little current."""
    for one in light_currents(context.mounted):
        if one.least < DIM * one.limit:
            yield PROBLEM.at(
                one.light.name.span,
                f"the light `{one.light.name}` may have only {shown(one.least, 'A')}: "
                f"{_left(one)} of {one.supply[0]:g} V for its resistor",
                help="take a red or yellow LED, or say the forward voltage of yours, as in `2.0 V`",
                about=[one.light.name.text],
            )


def _left(one: LightCurrent) -> str:
    least, most = (one.supply[0] - volts for volts in reversed(one.light.forward))
    if most <= 0:
        return "the LED leaves nothing"
    return f"the LED leaves {max(0.0, least):.1f} to {most:.1f} V"
