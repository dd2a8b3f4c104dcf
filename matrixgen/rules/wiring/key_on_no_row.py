"""# key on no row

## What it does
Finds a key that no row wire visits.

## Why it matters
A key sits where its row wire and its column wire meet. Without a row it can never be seen.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A
  column c0 on PB0  A
  column c1 on PB1  B
```

## Do instead
Name the key in the list of the row wire that is soldered to it, in soldering order.
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

PROBLEM = Problem("key-on-no-row", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each key off the rows; one that is off the columns too is told of here, once."""
    rows, columns = context.visits["row"], context.visits["column"]
    if not rows:
        return  # one finding says that there is no row at all
    told = {word.text for line in context.misnamed_lines("column") for word in line.visits}
    for key in context.keyboard.keys:
        name = key.name.text
        if name not in rows and name not in told:
            on_no_column = bool(columns) and name not in columns
            yield PROBLEM.at(
                key.name.span,
                f"`{name}` is on no row" + (" and no column" if on_no_column else ""),
                help=f"add `{name}` to the wires that are soldered to it"
                if on_no_column
                else f"add `{name}` to the row wire that is soldered to it",
            )
