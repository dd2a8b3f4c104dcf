"""# action without a key

## What it does
Finds a name of the block `actions` that no key and no other action uses.

## Why it matters
It can never be typed. Most often the cell was forgotten, or has something else in it.

## Example
```keys
actions
  copy        = Ctrl+C
  paste       = Ctrl+V

layer base
  C = copy
```

## Do instead
```keys
actions
  copy        = Ctrl+C
  paste       = Ctrl+V

layer base
  B = paste
  C = copy
```

## Reference
`grammar/README.md`, the block `actions`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.model.used_actions import used_actions
from matrixgen.rules.context import Context

PROBLEM = Problem("action-without-key", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each action that is named nowhere, in a file that has layers."""
    keyboard = context.keyboard
    if not any(cell.given for cell in keyboard.cells):
        return  # its layers are still to come
    used = used_actions(keyboard)
    for named in keyboard.actions:
        name = named.name.text
        if name not in used:
            yield PROBLEM.at(
                named.name.span,
                f"no key has the action `{name}`",
                help=f"write `KEY = {name}` in a layer, or remove it",
                about=[name],
            )
