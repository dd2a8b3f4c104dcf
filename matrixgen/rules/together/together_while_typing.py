"""# keys together while typing

## What it does
Finds a set of keys that has more than 100 ms, if two or more of its keys type something by
themselves.

## Why it matters
Letters that are typed quickly in turn are some 100 ms apart (common practice, no source). With a
longer time, two letters of a word become a set. Each of its keys is also late by that time when it
is typed alone.

## Example
```keys
layer base
  together A B within 150 ms = Esc
```

## Do instead
```keys
layer base
  together A B within 40 ms = Esc
```

## Reference
`grammar/README.md`, the section "Keys together".
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Keyboard, Layer, Problem, Severity, sent_usages
from matrixgen.model.actions.tap_hold import ROLL_MS
from matrixgen.rules.context import Context

PROBLEM = Problem("together-while-typing", Severity.WARNING, __doc__ or "")

MOST_MS = ROLL_MS
"""A key that follows another one so soon belongs to a word that is typed."""


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each set with so much time whose keys are typed in turn."""
    for layer in context.keyboard.layers:
        for one in layer.together:
            typing = [key for key in one.key_names if _types(context.keyboard, layer, key)]
            if one.within_ms > MOST_MS and len(typing) > 1:
                yield PROBLEM.at(
                    one.key.span,
                    f"`{one.key}` have {one.within_ms} ms to be pressed together, and are typed "
                    "in turn as quickly",
                    help=f"give them {MOST_MS} ms or less, such as `within 40 ms`",
                    about=one.key_names,
                )


def _types(keyboard: Keyboard, layer: Layer, key: str) -> bool:
    """Whether a key by itself sends a usage on a layer."""
    action = layer.action_of(key) or keyboard.layers[0].action_of(key)
    return action is not None and any(True for _ in sent_usages(action))
