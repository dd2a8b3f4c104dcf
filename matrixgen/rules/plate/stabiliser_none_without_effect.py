"""# stabiliser none without effect

## What it does
Finds a key in `stabiliser none` that is shorter than 2 units, or that is named there before.

## Why it matters
The word does nothing: only keys of 2 units and more have a stabiliser. Another key may have been
meant, which then gets one.

## Example
```keys
plate
  line A:1.5 B:2 C
  stabiliser none A
```

## Do instead
```keys
plate
  line A:1.5 B:2 C
  stabiliser none B
```

## Reference
2 units are common practice, no source. `grammar/README.md`, the block `plate`.
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Key, Note, Problem, Severity, Word
from matrixgen.plate.stabilisers import LEAST_UNITS, stabilisers_of
from matrixgen.rules.context import Context, said_again

PROBLEM = Problem("stabiliser-none-without-effect", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each word that takes no stabiliser away, in file order."""
    plate = context.keyboard.plate
    if not plate.without_stabiliser:
        return
    long = {one.key.name.text for one in stabilisers_of(plate.keys)}
    again = dict(said_again(plate.without_stabiliser))
    for word in plate.without_stabiliser:
        if word in again:
            yield _named_twice(word, again[word])
        elif word.text not in long:
            yield _too_short(word, plate.key_of[word.text])


def _named_twice(word: Word, earlier: Word) -> Diagnostic:
    return PROBLEM.at(
        word.span,
        f"`{word}` is named twice as a key without stabiliser",
        help="remove one of the two",
        notes=[Note("the first one is here", earlier.span)],
        about=[word.text],
    )


def _too_short(word: Word, key: Key) -> Diagnostic:
    units = max(key.width, key.height)
    length = "1 unit" if units == 1 else f"{units:g} units"
    return PROBLEM.at(
        word.span,
        f"`{word}` is {length} long and has no stabiliser anyway",
        help=f"remove it: keys of {LEAST_UNITS:g} units and more have one",
        notes=[Note(f"`{word}` is here", key.name.span)],
        about=[word.text],
    )
