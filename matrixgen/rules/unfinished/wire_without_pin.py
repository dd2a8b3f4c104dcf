"""# wire without a pin

## What it does
Finds a row or column wire that is not on a pin of the controller, when the file is to be built.

## Why it matters
The firmware has to know which pin each wire is soldered to.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1                   B
```

## Do instead
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

## Reference
`matrixgen boards NAME` lists a controller's pins.
"""

from collections.abc import Iterator

from matrixgen.model import Line, Problem, Severity
from matrixgen.model.prose import quoted
from matrixgen.rules.unfinished.open_point import OpenPoint, Unfinished

PROBLEM = Problem("wire-without-pin", Severity.ERROR, __doc__ or "")

FEW = 4
"""How many lines are named one by one in the summary of what is open."""


def look(draft: Unfinished) -> Iterator[OpenPoint]:
    """Yield one point if no line has a pin, or else one a line that has none."""
    wiring = draft.design.keyboard.wiring
    bare = [line for line in wiring.lines if line.name.text not in draft.design.pins]
    if bare and len(bare) == len(wiring.lines):
        finding = PROBLEM.at(
            wiring.keyword,
            "no wire is on a pin",
            help="add `on PIN` after each wire's name; `matrixgen boards NAME` lists the pins",
        )
        yield OpenPoint("no pins", finding)
        return
    missing = f"no pin for {len(bare)} wires"
    if 0 < len(bare) <= FEW:
        missing = f"no pin for {quoted(line.name.text for line in bare)}"
    room = min((len(one.spare_pins) for one in draft.mounted), default=len(bare))
    for place, line in enumerate(bare[:room]):  # more-wires-than-pins speaks of the rest
        pins = [one.spare_pins[place].name for one in draft.mounted]
        finding = PROBLEM.at(line.name.span, f"`{line.name}` is on no pin", help=_help(line, pins))
        yield OpenPoint(missing, finding)


def _help(line: Line, spare: list[str]) -> str:
    """Return the help: a spare pin on each controller, another one for each line that lacks one."""
    if not spare:
        return f"add `on PIN` after `{line.name}`"
    return f"add `on {', '.join(spare)}`, which {'is' if len(spare) == 1 else 'are'} spare"
