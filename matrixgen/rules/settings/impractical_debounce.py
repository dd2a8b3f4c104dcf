"""# debounce time that is hardly useful

## What it does
Finds a debounce time outside 2 to 30 ms.

## Why it matters
A contact that bounces for longer than the debounce time types its character twice. A release counts
that much later than it happens, and two presses closer than that become one.

## Example
```keys
keyboard "Pad"
  controller atmega32u4
  debounce   1 ms
```

## Do instead
```keys
keyboard "Pad"
  controller atmega32u4
  debounce   5 ms
```

## Reference
Switches bounce for up to about 5 ms; 5 ms, or 10 ms to be safe (common practice, no source).
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity
from matrixgen.rules.context import Context
from matrixgen.rules.settings.practical import impractical

PROBLEM = Problem("impractical-debounce", Severity.WARNING, __doc__ or "")

PRACTICAL = (2, 30)
"""In ms: the range that is of practical use (common practice, no source)."""


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding where the time given is outside of the practical range."""
    catches = ("a bouncing contact then types twice", "two quick presses then become one")
    return impractical(PROBLEM, context.keyboard.debounce_ms, PRACTICAL, "ms", catches)
