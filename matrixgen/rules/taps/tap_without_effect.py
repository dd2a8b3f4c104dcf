"""# tap without effect

## What it does
Finds a tap whose action is named elsewhere and is `hold layer NAME`.

## Why it matters
A tap is over once it is known to be one: the layer would turn off at once, and no key could be
typed in it.

## Example
```keys
actions
  digits-on   = hold layer digits

layer base
  C = tap digits-on, hold Ctrl

layer digits
  A = 1
```

## Do instead
```keys
layer base
  C = tap once layer digits, hold Ctrl

layer digits
  A = 1
```

## Reference
`grammar/README.md`, the section "A tap and a hold".
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity, TapHold
from matrixgen.rules.context import Context
from matrixgen.rules.meanings.each_cell import first_of_kind

PROBLEM = Problem("tap-without-effect", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each action whose tap has a layer on for as long as a tap lasts."""
    for action, cell, keys in first_of_kind(context.keyboard, TapHold):
        for turn in action.tap.turns_on:
            if turn.lasts == "while down":
                yield PROBLEM.at(
                    cell.written.span,
                    f"a tap of `{cell.key}` turns `{turn.layer}` off at once, "
                    "before it can be used",
                    help=f"tap `once layer {turn.layer}` or `latch layer {turn.layer}`, "
                    f"or hold `layer {turn.layer}`",
                    about=keys,
                )
