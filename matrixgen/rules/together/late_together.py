"""# a set of keys that is always late

## What it does
Finds a set of keys inside a larger set that has more time.

## Why it matters
If the smaller set is pressed, the larger one can still come until its own time is over: the
smaller one is late by all of that time, whatever its own is. With the same time for both, it is
late by no more than a single key of the set is.

## Example
```keys
layer base
  together A B within 30 ms = Esc
  together A B C within 90 ms = Tab
```

## Do instead
```keys
layer base
  together A B within 40 ms = Esc
  together A B C within 40 ms = Tab
```

## Reference
`grammar/README.md`, the section "Keys together".
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("late-together", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each such set once, with the larger one that has the most time."""
    for layer in context.keyboard.layers:
        for one in layer.together:
            keys = set(one.key_names)
            larger = [
                other
                for other in layer.together
                if keys < set(other.key_names) and other.within_ms > one.within_ms
            ]
            if larger:
                last = max(larger, key=lambda other: other.within_ms)
                yield PROBLEM.at(
                    one.key.span,
                    f"`{one.key}` together are always late: until {last.within_ms} ms are over, "
                    f"`{last.key}` can still come",
                    help=f"give `{last.key}` {one.within_ms} ms as well",
                    notes=[Note("the larger set is here", last.key.span)],
                    about=one.key_names,
                )
