"""# boot loader key named twice

## What it does
Finds a key named a second time in `boot-loader hold`.

## Why it matters
It is a typing mistake: another key was meant, and without it the combination is pressed more
easily.

## Example
```keys
keyboard "Pad"
  controller  atmega32u4
  boot-loader hold A B B
```

## Do instead
```keys
keyboard "Pad"
  controller  atmega32u4
  boot-loader hold A B C
```

## Reference
`grammar/README.md`, the block `keyboard`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import Context, said_again

PROBLEM = Problem("duplicate-boot-loader-key", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each key that was named before."""
    for word, earlier in said_again(context.keyboard.boot_loader.hold):
        yield PROBLEM.at(
            word.span,
            f"`{word}` is named a second time",
            help="name each key once",
            notes=[Note(f"`{word}` is first named here", earlier.span)],
        )
