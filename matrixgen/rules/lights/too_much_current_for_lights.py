"""# too much current for lights

## What it does
Finds a light that has more current than its pin may give or take, and lights that together have
more than the pins of a port, or all pins of the chip, may. In the sum all lights are lit.

## Why it matters
A pin that is asked for more no longer keeps its level, and a chip may be damaged.

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
  light CapsLock    on GP3  red at 10 mA
```

## Do instead
An LED to look at needs 1 or 2 mA.
```keys
keyboard "Pad"
  controller rp2040-40pin

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on GP0   A B
  column c0          on GP1   A
  column c1          on GP2   B
  light CapsLock    on GP3  red at 2 mA
```

## Reference
The limits are those of the profile and its datasheet; the pins of an RP2040 are set to 4 mA. An
AVR's pins of one port may have 100 mA together (Atmel 7766, notes to table 29-1, which have groups
of several ports; each port is reckoned by itself here).
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from matrixgen.boards import Pin, Profile
from matrixgen.circuit.lights import LightCurrent, light_currents
from matrixgen.circuit.units import shown
from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.model.prose import counted
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("too-much-current-for-lights", Severity.ERROR, __doc__ or "")

HELP = "an LED to look at needs 1 or 2 mA, as in `at 1 mA`"


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each light with too much current, and the first one with which a sum is too large."""
    currents, profile = list(light_currents(context.mounted)), context.profile
    for one in currents:
        limit = _limit_of(one.pin, profile)
        if limit is not None and one.most > limit:
            yield PROBLEM.at(
                one.light.span,
                f"the light `{one.light.name}` has up to {shown(one.most, 'A')}, and "
                f"`{one.pin.shown}` may have at most {shown(limit, 'A')}",
                help=HELP,
                about=[one.pin.name, one.light.name.text],
            )
    for what, limit, some in _sums(currents, profile):
        total = sum(one.most for one in some)
        if total > limit:
            yield PROBLEM.at(
                some[-1].light.span,
                f"{counted(len(some), 'light')} on {what} have up to {shown(total, 'A')} "
                f"together, and it may have at most {shown(limit, 'A')}",
                help=HELP,
                about=[one.light.name.text for one in some],
            )


def _limit_of(pin: Pin, profile: Profile) -> float | None:
    limits = (profile.sink_ampere_of(pin), profile.drive_ampere)
    return min((one for one in limits if one is not None), default=None)


def _sums(
    currents: Sequence[LightCurrent], profile: Profile
) -> Iterator[tuple[str, float, list[LightCurrent]]]:
    """Yield what has a limit for several pins, the limit, and the lights on it."""
    family = profile.family_record
    ports: dict[str, list[LightCurrent]] = defaultdict(list)
    for one in currents:
        place = family.place_of(one.pin.name) if family else None
        ports[place.port if place else ""].append(one)
    if family and family.port_ampere is not None:
        for port, some in ports.items():
            yield f"port {port}", family.port_ampere, some
    if profile.total_sink_ampere is not None and currents:
        yield f"`{profile.name}`", profile.total_sink_ampere, list(currents)
