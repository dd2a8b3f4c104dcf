"""# pin held low

## What it does
Finds a wire on a pin that the board holds low with a resistor to ground.

## Why it matters
A wire rests high by the chip's pull-up of about 20 to 100 kΩ. A resistor of 10 kΩ to ground
is stronger: a sensed wire then reads as if its keys were always pressed, and a driven one pulls the
sensed wires of its pressed keys down whichever wire's turn it is.

## Example
```keys
keyboard "Pad"
  controller board-f401

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PB2   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

## Do instead
Use another pin.
```keys
keyboard "Pad"
  controller board-f401

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PB5   A B
  column c0          on PB0   A
  column c1          on PB1   B
```
If the resistor is no longer on your board, write a profile of your own without it.

## Reference
Ohm's law: V = V_CC R / (R + R_pull), with the weakest pull-up, against V_IH of the chip's
datasheet.
"""

from collections.abc import Iterator

from matrixgen.boards.on_board import weakest_feed
from matrixgen.circuit.units import shown
from matrixgen.model import Component, Diagnostic, Light, Line, Note, Problem, Severity
from matrixgen.rules.context import MountedContext, spare_pin_help

PROBLEM = Problem("pin-held-low", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each wire and knob on a pin that a resistor on the board keeps from reading high."""
    for use in context.mounted.uses:
        pin = use.pin
        if isinstance(use.end, Light) or not pin.is_usable or not context.profile.holds_low(pin):
            continue
        at = weakest_feed(context.profile, pin).volts
        levels = context.profile.levels_of(pin)
        yield PROBLEM.at(
            use.word.span,
            f"{use.called} is on `{pin.shown}`, which {shown(pin.part_ohm or 0, 'ohm')} to "
            f"ground on the board holds at {shown(at, 'V')}: "
            f"{_what_follows(context, use.end, is_low=at <= levels.low_max)}",
            help=spare_pin_help(context),
            notes=[Note(f"it is only sure to read high from {shown(levels.high_min, 'V')}")],
            about=[name for name in (pin.name, pin.label) if name],
        )


def _what_follows(context: MountedContext, end: Line | Component, *, is_low: bool) -> str:
    if isinstance(end, Component):
        return "it always reads as closed" if is_low else "no open contact may be so low"
    is_pressed = is_low and not context.is_driven(end)
    return "it always reads as pressed" if is_pressed else "no idle wire may be so low"
