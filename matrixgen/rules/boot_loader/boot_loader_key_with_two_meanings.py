"""# boot loader key with a tap and a hold

## What it does
Finds a key of `boot-loader hold` that has a tap and a hold on some layer.

## Why it matters
The keys are down for a second before the boot loader starts, longer than any hold takes: the hold
comes first, whether a layer or a modifier that the computer sees.

## Example
```keys
keyboard "Pad"
  controller  atmega32u4
  boot-loader hold A C

layer base
  C = tap C, hold Ctrl
```

## Do instead
```keys
keyboard "Pad"
  controller  atmega32u4
  boot-loader hold A B

layer base
  C = tap C, hold Ctrl
```

## Reference
`grammar/README.md`, the statement `boot-loader hold` and the section "A tap and a hold".
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import Context
from matrixgen.rules.taps.deciding import deciding_cells

PROBLEM = Problem("boot-loader-key-with-two-meanings", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each such key once, at the statement that names it."""
    cells = {cell.key.text: cell for cell in deciding_cells(context.keyboard)}
    reported: set[str] = set()
    for word in context.keyboard.boot_loader.hold:
        cell = cells.get(word.text)
        if cell and word.text not in reported:
            reported.add(word.text)
            yield PROBLEM.at(
                word.span,
                f"`{word}` is held to start the boot loader, and its hold does "
                f"`{cell.action.parts[1].phrase}`",
                help="name keys that do one thing each",
                notes=[Note("its tap and hold are given here", cell.written.span)],
                about=[word.text],
            )
