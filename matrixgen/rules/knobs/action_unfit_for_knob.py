"""# action that a knob cannot do

## What it does
Finds a step of a knob with an action that lasts while a key is down, such as `hold layer`, that
depends on how long one is down, or that starts the boot loader.

## Why it matters
A step presses its action and releases it at once, before anything else is typed: a layer that is
held would be over before it did anything, and a hold would never come. A boot loader that starts by
a turn is one that starts by accident.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
  knob dial        on PB2 PB3

layer base
  dial.right = hold layer more

layer more
  A = 1
```

## Do instead
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
  knob dial        on PB2 PB3

layer base
  dial.right = latch layer more
  B          = unlatch layers

layer more
  A = 1
```

## Reference
`grammar/README.md`, the section "Knobs".
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Action, Diagnostic, Problem, Severity, starts_boot_loader
from matrixgen.rules.context import Context

PROBLEM = Problem("action-unfit-for-knob", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each step that cannot do what it is given."""
    steps = {step for knob in context.keyboard.knobs for step in knob.steps}
    for cell in context.keyboard.cells if steps else ():
        if cell.key.text in steps and (why := _why_unfit(cell.action)):
            yield PROBLEM.at(
                cell.written.span,
                f"`{cell.key}` cannot do `{cell.action.phrase}`: {why[0]}",
                help=why[1],
                about=[cell.key.text],
            )


def _why_unfit(action: Action) -> tuple[str, str] | None:
    """Return why a step cannot do something, and what to do instead; None where it can."""
    if any(turn.lasts == "while down" for turn in action.turns_on):
        return (
            "a step presses and releases at once, so the layer would be over",
            "`latch layer`, `once layer` and `change base to` stay on; to hold a layer takes a key",
        )
    if action.decides_after_ms is not None:
        return (
            "a step presses and releases at once, which takes no time to tell apart",
            "write what a tap does, and give the rest to a key or to another layer",
        )
    if starts_boot_loader(action):
        return "a turn would start it by accident", "give it to a key"
    return None
