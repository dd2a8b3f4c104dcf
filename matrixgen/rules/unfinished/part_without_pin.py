"""# light or knob without its pins

## What it does
Finds a light or a knob that is on no pin of the controller, when the file is to be built: its
statement in `wiring` lacks `on PIN`, or only the plate has it.

## Why it matters
The firmware has to know which pin it is soldered to.

## Example
```keys
plate
  line A B
  light CapsLock at 2.5, 0.5

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

## Do instead
```keys
plate
  line A B
  light CapsLock at 2.5, 0.5

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
  light CapsLock    on PB2
```

## Reference
`grammar/README.md`, the block `wiring`. A light that is not on the plate needs no place there.
"""

from collections.abc import Iterator

from matrixgen.model import PINS_OF, Component, ComponentPlace, Problem, Severity
from matrixgen.rules.unfinished.open_point import OpenPoint, Unfinished

PROBLEM = Problem("part-without-pin", Severity.ERROR, __doc__ or "")


def look(draft: Unfinished) -> Iterator[OpenPoint]:
    """Yield one point for each light and knob without pins, once a wire is there."""
    keyboard = draft.design.keyboard
    if not keyboard.wiring.lines:
        return  # of which more is missing
    seen = set(draft.design.component_pins)
    for one in keyboard.of_components:
        if one.called not in seen:
            seen.add(one.called)
            finding = PROBLEM.at(
                one.name.span, f"the {one.kind} `{one.name}` is on no pin", help=_help(one)
            )
            yield OpenPoint(f"no pin for the {one.kind} `{one.name}`", finding)


def _help(one: Component | ComponentPlace) -> str:
    """Return the help: a pin, or a statement with one; each pin on another one that is spare."""
    pins = " ".join(["PIN"] * PINS_OF[one.kind])
    if isinstance(one, Component):
        return f"add `on {pins}` after its name; `matrixgen boards NAME` lists the pins"
    return f"add `{one.kind} {one.name} on {pins}` to the block `wiring`"
