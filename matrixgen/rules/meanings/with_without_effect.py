"""# with that changes nothing

## What it does
Finds a `with` that sends what the key sends anyway while that modifier is down.

## Why it matters
A key that is pressed with a modifier is sent with it. The phrase says nothing new, so another key
or another modifier was probably meant.

## Example
```keys
layer base
  B = A, with Shift Shift+A
  C = Shift
```

## Do instead
```keys
layer base
  B = A
  C = Shift
```

## Reference
`grammar/README.md`, the section "With a modifier".
"""

from collections.abc import Iterator

from matrixgen.model import Action, Diagnostic, Instead, Press, Problem, Severity, WithModifier
from matrixgen.model.actions.with_modifier import kinds_of
from matrixgen.rules.context import Context
from matrixgen.rules.meanings.each_cell import first_of_kind

PROBLEM = Problem("with-without-effect", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each such part of an action."""
    for action, cell, keys in first_of_kind(context.keyboard, WithModifier):
        for one in action.others:
            if _is_sent_anyway(action.plain, one):
                yield PROBLEM.at(
                    cell.written.span,
                    f"with {one.words}, `{cell.key}` sends {one.action.phrase} anyway",
                    help=f"leave `with {one.words} {one.action.phrase}` out, "
                    "or write what is to be sent in its place",
                    about=keys,
                )


def _is_sent_anyway(plain: Action, one: Instead) -> bool:
    match plain, one.action:
        case Press(usage, modifiers), Press(other, others):
            return usage == other and kinds_of(others) == kinds_of(modifiers | one.modifiers)
        case _:
            return False
