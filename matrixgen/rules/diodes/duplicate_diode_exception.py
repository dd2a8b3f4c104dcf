"""# two exceptions for one diode

## What it does
Finds a key named both in `without diode` and in `reversed`, or twice in one of them.

## Why it matters
A missing diode cannot be reversed. One of the two was meant for another key.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  without diode A
  reversed A
  row    r0          on PD0   A B
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

PROBLEM = Problem("duplicate-diode-exception", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each second exception, in file order."""
    wiring = context.keyboard.wiring
    words = sorted(wiring.without_diode + wiring.reversed, key=lambda word: word.span)
    for word, earlier in said_again(words):
        yield PROBLEM.at(
            word.span,
            f"`{word}` has two exceptions for its diode",
            help="remove one of the two",
            notes=[Note("the first one is here", earlier.span)],
        )
