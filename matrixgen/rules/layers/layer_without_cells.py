"""# layer without cells

## What it does
Finds a layer that gives no key an action of its own, and that no other layer needs.

## Why it matters
Turning it on changes nothing. Its cells were forgotten, or are under another layer's name.

## Example
```keys
actions
  digits-on   = hold layer digits

layer base
  C = digits-on

layer digits
```

## Do instead
```keys
actions
  digits-on   = hold layer digits

layer base
  C = digits-on

layer digits
  A = 1
```

## Reference
`grammar/README.md`, the block `layer`.
"""

from collections.abc import Iterator

from matrixgen.model import BASE, Diagnostic, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("layer-without-cells", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each layer but the base that is see-through at every key."""
    needed = {word.text for layer in context.keyboard.layers for word in layer.needs}
    for layer in context.keyboard.layers:
        name = layer.name.text
        if name != BASE and not layer.every_cell and name not in needed:
            yield PROBLEM.at(
                layer.name.span,
                f"the layer `{name}` changes no key",
                help="write `KEY = CELL` for the keys that it changes, or remove it",
                about=[name],
            )
