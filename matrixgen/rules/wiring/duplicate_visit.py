"""# key visited twice by one wire

## What it does
Finds a row or column wire that names the same key twice.

## Why it matters
A wire is soldered to a key once. One of the two is a mistake, often instead of a neighbour, or the
soldering order is not the one in the file.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B A
  column c0          on PB0   A
  column c1          on PB1   B
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
`grammar/README.md`, the block `wiring`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import Context, said_again

PROBLEM = Problem("duplicate-visit", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each further visit of a line to a key it has visited."""
    for line in context.keyboard.wiring.lines:
        for word, earlier in said_again(line.visits):
            yield PROBLEM.at(
                word.span,
                f"`{line.name}` visits `{word}` twice",
                help="remove one of the two",
                notes=[Note("the first visit is here", earlier.span)],
            )
