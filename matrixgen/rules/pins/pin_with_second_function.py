"""# pin with a second function

## What it does
Finds a wire, a light or a knob on a pin that also does something else that you have to consider: an
LED on the board, a crystal, a boot strap. The help says what to do about it. A second function that
needs nothing done, such as a JTAG port that the firmware turns off, is not a finding: `pins.md`
lists it.

## Why it matters
Such a pin works for a wire, but it needs care, which is cheaper to know before soldering. An LED
from the pin to ground, for example, holds it at about 1.6 V while it is not driven, against the
pull-up (calculated).

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PE2   B
```

## Do instead
Follow the help and write `allow pin-with-second-function PE2` in the block `keyboard`, or use a
pin without a second function.
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

## Reference
The datasheet that the profile names; `matrixgen boards NAME` lists each
pin's second function.
"""

from collections.abc import Iterator

from matrixgen.boards import Pin
from matrixgen.boards.on_board import weakest_feed
from matrixgen.circuit.units import shown
from matrixgen.model import Component, Diagnostic, Line, Note, Problem, Severity
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("pin-with-second-function", Severity.WARNING, __doc__ or "")

DRIVEN_LIGHT_TO_GROUND = (
    "while it is idle, the LED holds the pin so low that a closed key leaves its sensed wire only "
    "just above what reads high"
)

LIGHT_TO_SUPPLY = "whatever pulls the wire low also sinks the current of the LED"


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each use of a shared pin."""
    for use in context.mounted.uses:
        pin = use.pin
        asks = pin.use == "shared" and not pin.asks_nothing
        if asks and not context.profile.holds_low(pin):  # pin-held-low says more
            yield PROBLEM.at(
                use.word.span,
                f"{use.called} is on `{pin.shown}`, which {pin.duty}",
                help=pin.advice,
                notes=[
                    *_of_part(pin, context, use.end),
                    Note(f"`allow {PROBLEM.slug} {use.word}` in `keyboard` hides this warning"),
                ],
                about=[name for name in (pin.name, pin.label) if name],
            )


def _of_part(pin: Pin, context: MountedContext, end: Line | Component) -> Iterator[Note]:
    """Yield what the part on a pin does to the line."""
    if not isinstance(end, Line):
        return
    is_driven = context.is_driven(end)
    if pin.part == "light to ground" and is_driven:
        yield Note(DRIVEN_LIGHT_TO_GROUND)
    elif pin.part == "light to ground":
        idle = weakest_feed(context.profile, pin).volts
        high = context.profile.levels_of(pin).high_min
        yield Note(
            f"the LED holds the wire at {shown(idle, 'V')} against its pull-up, as a closed key "
            f"does: it is only sure to read high from {shown(high, 'V')}"
        )
    elif pin.part == "light to supply":
        yield Note(LIGHT_TO_SUPPLY)
