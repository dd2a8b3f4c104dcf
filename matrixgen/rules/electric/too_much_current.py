"""# too much current for a pin

## What it does
Finds a driven wire whose pin would have to sink more than it may, with all keys of the wire down.

## Why it matters
Each pressed key of a driven wire brings the current of one pull-up to the pin that pulls the wire
low. Some pins are made for much less than the others of their chip.

## Example
The pin WEAK of this controller may sink 0.4 mA, and each key brings up to 0.25 mA.
```keys
keyboard "Pad"
  controller "weak-pin.json"

plate
  line A B

wiring
  drive rows, sense columns
  diodes 1N4148, band toward rows
  row    r0          on WEAK  A B
  column c0          on P1    A
  column c1          on P2    B
```

## Do instead
Put a wire with fewer keys on the pin, or swap what is driven and what is sensed.
```keys
keyboard "Pad"
  controller "weak-pin.json"

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on P1    A B
  column c0          on WEAK  A
  column c1          on P2    B
```

## Reference
Kirchhoff's current law; the limits are those of the profile and its datasheet:
`matrixgen figures FILE` shows each figure with its source.
"""

from collections.abc import Iterator

from matrixgen.circuit.over_supply import LevelsOverSupply
from matrixgen.circuit.units import shown
from matrixgen.model import Diagnostic, Line, Problem, Severity
from matrixgen.model.prose import counted
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("too-much-current", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each driven line with more than its pin may sink, or all pins together."""
    levels = context.levels
    for number, line in enumerate(levels.matrix.drives if levels else ()):
        assert levels
        yield from _of_line(context, levels, number, line)


def _of_line(
    context: MountedContext, levels: LevelsOverSupply, number: int, line: Line
) -> Iterator[Diagnostic]:
    profile, word = context.profile, context.mounted.word_of(line)
    pin = context.mounted.pin_of(line)
    if pin is None or word is None:
        return
    limits = (profile.sink_ampere_of(pin), profile.total_sink_ampere)
    limit = min((one for one in limits if one is not None), default=None)
    sunk = levels.most_sunk(number)
    if limit is not None and sunk > limit:
        yield PROBLEM.at(
            word.span,
            f"`{pin.name}` may have to sink {shown(sunk, 'A')} for `{line.name}`, "
            f"but may sink at most {shown(limit, 'A')}",
            help=f"put a wire with fewer than {counted(len(line.visits), 'key')} there, "
            "or swap what is driven and what is sensed",
            about=[pin.name, line.name.text],
        )
