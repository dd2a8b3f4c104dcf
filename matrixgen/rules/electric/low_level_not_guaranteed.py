"""# low level that is not guaranteed

## What it does
Finds a controller and a diode with which a pressed key is not sure to read as pressed: in the worst
case the sensed pin stays above the level that the chip is sure to read as low.

## Why it matters
The diode drops 0.5 to 0.6 V, which is a lot for a chip that runs at 3.3 V or less. Most chips
read low well above the guaranteed level. So such a keyboard works on the bench, and then misses
keys on a cold morning or with another chip of the same kind.

## Example
```keys
keyboard "Pad"
  controller stick-32u4-3v3

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PD1   A
  column c1          on PD4   B
```

## Do instead
Use a Schottky diode, which drops half as much, or a controller at 5 V. If you know your chip and
your room, write `allow low-level-not-guaranteed`.
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
V = V_OL + V_F(I) + I R_switch, against V_IL of the chip's datasheet, at 0 degrees Celsius, with the
strongest pull-up, the diode that drops most, the worst supply of the controller's range and up to
ten keys down on a driven wire. `matrixgen figures FILE` shows each figure with its source, and what
more keys do.
"""

from collections.abc import Iterator

from matrixgen.circuit.low_level import LowLevel
from matrixgen.circuit.over_supply import LevelsOverSupply
from matrixgen.circuit.planned import COLDEST_CELSIUS
from matrixgen.circuit.units import shown
from matrixgen.model import Diagnostic, Note, Problem, Severity, Span
from matrixgen.model.prose import counted
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("low-level-not-guaranteed", Severity.WARNING, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield one finding a controller: the worst key, and how many others there are."""
    levels = context.levels
    worst = levels.worst if levels else None
    if levels is None or worst is None or worst.margin >= 0:
        return
    if levels.diode.reverse_volts < max(context.profile.supplies):
        return  # diode-that-breaks-down says more
    at = context.pin_called(levels.matrix.senses[worst.contact.sense])
    failing = [one for one in levels.all if one.margin < 0]
    yield PROBLEM.at(
        _place(context),
        f"a pressed `{worst.contact.key}` may leave {at} at {shown(worst.volts, 'V')}, and "
        f"`{context.profile.name}` is only sure to read low up to {shown(worst.limit, 'V')}",
        help=list(_helps(levels, worst)),
        notes=[
            Note(_worst_case(worst, levels)),
            Note(_with_how_many(worst, levels)),
            Note(f"the same is true of {counted(len(failing), 'key')} in all"),
        ],
        about=_names(context, levels, failing),
    )


def _worst_case(worst: LowLevel, levels: LevelsOverSupply) -> str:
    """Return what the voltage is made of."""
    diode = f"{levels.diode.name} drops {shown(worst.diode_volts, 'V')}"
    output = f"the driven pin stays at {shown(worst.output_volts, 'V')}"
    parts = [diode, output] if worst.diode_volts else [output]
    return (
        f"in the worst case, {COLDEST_CELSIUS.value:g} degrees Celsius, a supply of "
        f"{shown(worst.supply, 'V')} and {shown(worst.ampere, 'A')}: {', '.join(parts)}"
    )


def _with_how_many(worst: LowLevel, levels: LevelsOverSupply) -> str:
    """Return with how many keys of the driven line down it is no longer sure."""
    drive, least = levels.matrix.drives[worst.contact.drive], levels.fails_from(worst)
    where = f"on `{drive.name}`"
    if worst.fed_by:
        where += f", or on wires that feed `{levels.matrix.senses[worst.contact.sense].name}`"
    keys = "one key down is enough" if least == 1 else f"it takes {least} keys down {where}"
    return f"{keys}; the figures are for {counted(worst.down, 'key')} of `{drive.name}` down"


def _helps(levels: LevelsOverSupply, worst: LowLevel) -> Iterator[str]:
    other, least = levels.with_a_sure_diode, levels.fails_from(worst)
    if other and other.worst:
        spare = shown(other.worst.margin, "V")
        yield f"with {other.diode.name} diodes there would be {spare} to spare"
    if least and least > 1 and not worst.fed_by:
        few = f"fewer than {counted(least, 'key')} on each driven wire"
        yield f"or put {few}, or swap what is driven and what is sensed"
    yield "or use a controller with a higher supply; `matrixgen boards` lists them"


def _names(context: MountedContext, levels: LevelsOverSupply, failing: list[LowLevel]) -> set[str]:
    """Return the controller, and the pins and lines that sense the keys."""
    lines = [levels.matrix.senses[one.contact.sense] for one in failing]
    pins = (context.mounted.pin_of(line) for line in lines)
    found = {pin.name for pin in pins if pin} | {line.name.text for line in lines}
    return found | {context.profile.name}


def _place(context: MountedContext) -> Span:
    diodes = context.keyboard.wiring.diodes
    return diodes.part.span if diodes else context.mounted.controller.span
