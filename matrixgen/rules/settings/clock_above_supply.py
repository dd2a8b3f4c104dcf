"""# clock above the supply

## What it does
Finds a controller whose chip is not guaranteed to run at its clock with its supply, such as an
ATmega32U4 with 3.3 V and 16 MHz.

## Why it matters
A chip that runs too fast for its supply works on the bench, and then fails now and then, first in
the heat: a key is not typed, or the board is no longer found. There are boards like this.

## Example
The profile of this controller says 3.3 V and 16 MHz, and that 16 MHz need 4.5 V.
```keys
keyboard "Pad"
  controller "fast-and-low.json"

plate
  line A B

wiring
  drive columns, sense rows
  diodes BAT85, band toward columns
  row    r0          on P1    A B
  column c0          on P2    A
  column c1          on P3    B
```

## Do instead
Use a board that is made for its supply.
```keys
keyboard "Pad"
  controller stick-32u4-3v3

plate
  line A B

wiring
  drive columns, sense rows
  diodes BAT85, band toward columns
  row    r0          on PD0   A B
  column c0          on PD1   A
  column c1          on PD4   B
```

## Reference
`clock_volts` of the profile, against its `supply_volts`. ATmega32U4: Atmel 7766J section 29.6,
4.5 V for 16 MHz and 2.7 V for 8 MHz. A 5 V board on a weak USB port is not
reported, as that depends on the port: `matrixgen figures FILE` shows it.
"""

from collections.abc import Iterator

from matrixgen.circuit.units import shown
from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("clock-above-supply", Severity.WARNING, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield one finding a controller whose usual supply is too low for its clock."""
    profile = context.profile
    if profile.clock_volts is None or profile.supply_volts >= profile.clock_volts:
        return
    yield PROBLEM.at(
        context.mounted.controller.span,
        f"`{profile.name}` has {shown(profile.supply_volts, 'V')}, and {profile.clock_hz / 1e6:g} "
        f"MHz are only guaranteed from {shown(profile.clock_volts, 'V')}",
        help="use a board with a slower clock or a higher supply",
        about=[profile.name],
    )
