"""# several minus signs in a picture

## What it does
Finds a picture in which several cells are `-`.

## Why it matters
`-` looks like "nothing here", but it is the key that types a minus. A cell that leaves its key
alone is written `~`.

## Example
```keys
plate
  line A B C

layer digits
  1 - -

actions
  more        = hold layer digits

layer base
  C = more
```

## Do instead
```keys
plate
  line A B C

layer digits
  1 ~ ~

actions
  more        = hold layer digits

layer base
  C = more
```
Where minus is meant, write it out: `Minus`.

## Reference
`grammar/README.md`, the block `layer`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("minus-in-picture", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each picture with two such cells or more, at the first one."""
    for layer in context.keyboard.layers:
        signs = [cell for cell in layer.cells if cell.given and cell.written.text == "-"]
        if layer.is_picture and len(signs) > 1:
            yield PROBLEM.at(
                signs[0].written.span,
                f"{len(signs)} cells of this picture are `-`, which types a minus",
                help="write `~` for a key that this layer leaves alone, or `Minus` for the key",
                notes=[Note("the last one is here", signs[-1].written.span)],
                about=[layer.name.text, *(cell.key.text for cell in signs)],
            )
