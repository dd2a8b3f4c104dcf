"""# key on no column

## What it does
Finds a key that no column wire visits. A key that is on no row either is reported there, once.

## Why it matters
A key sits where its row wire and its column wire meet. Without a column it can never be seen.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A B
  column c0 on PB0  A
```

## Do instead
Name the key in the list of the column wire that is soldered to it, in soldering order.
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A B
  column c0 on PB0  A
  column c1 on PB1  B
```

## Reference
`grammar/README.md`, the block `wiring`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("key-on-no-column", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each key that is off the columns but on a row."""
    rows, columns = context.visits["row"], context.visits["column"]
    if not columns:
        return  # one finding says that there is no column at all
    told = {word.text for line in context.misnamed_lines("row") for word in line.visits}
    for key in context.keyboard.keys:
        name = key.name.text
        if name not in columns and name not in told and (name in rows or not rows):
            yield PROBLEM.at(
                key.name.span,
                f"`{name}` is on no column",
                help=f"add `{name}` to the column wire that is soldered to it",
            )
