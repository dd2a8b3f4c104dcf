"""# key that types for too long

## What it does
Finds an action that takes more than 30 s: two reports for each key that it presses, each of them as
long as `pace` says, and its waits.

## Why it matters
While a key types, what else is pressed waits. The firmware's clock goes round once a minute, and an
event that waits for more than half of that may be taken for another: a hold for a tap.

## Example
```keys
keyboard "Pad"
  controller atmega32u4
  pace       100 ms

actions
  form        = Tab, then wait 2550 ms, then Tab, then wait 2550 ms, then Tab, then wait 2550 ms, then Tab, then wait 2550 ms, then Tab, then wait 2550 ms, then Tab, then wait 2550 ms, then Tab, then wait 2550 ms, then Tab, then wait 2550 ms, then Tab, then wait 2550 ms, then Tab, then wait 2550 ms, then Tab, then wait 2550 ms, then Tab, then wait 2550 ms, then Tab

layer base
  A = form
```

## Do instead
```keys
keyboard "Pad"
  controller atmega32u4
  pace       8 ms

actions
  form        = Tab, then wait 500 ms, then Tab, then wait 500 ms, then Enter

layer base
  A = form
```

## Reference
`grammar/README.md`, "One thing after the other". The engine's clocks are milliseconds in 16 bits.
"""  # noqa: E501

from collections.abc import Iterator

from matrixgen.model import Action, Diagnostic, InTurn, Problem, Severity, Span, with_parts
from matrixgen.model.keyboard import PACE_MS
from matrixgen.rules.context import Context

PROBLEM = Problem("typing-takes-too-long", Severity.ERROR, __doc__ or "")

MOST_MS = 30_000
"""Below half of what a clock of 16 bits counts, 32,768 ms."""


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each action that takes longer, once, where the file says what it types."""
    pace_ms = context.keyboard.effective.pace_ms
    named = {one.action: one.name for one in context.keyboard.actions}
    reported: set[Action] = set()
    for cell in context.keyboard.cells:
        for action in with_parts(cell.action):
            if isinstance(action, InTurn) and action not in reported:
                reported.add(action)
                if action.lasts_ms(pace_ms) > MOST_MS:
                    where = named.get(action, cell.written)
                    yield _finding(action, where.span, pace_ms, cell.key_names)


def _finding(action: InTurn, span: Span, pace_ms: int, keys: tuple[str, ...]) -> Diagnostic:
    seconds = action.lasts_ms(pace_ms) / 1000
    helps = ["make it shorter, or give its parts to several keys"]
    if pace_ms > PACE_MS:
        helps.append(f"a shorter `pace` helps: the default is {PACE_MS} ms")
    return PROBLEM.at(
        span,
        f"this takes {seconds:.1f} s at a pace of {pace_ms} ms; "
        f"at most {MOST_MS // 1000} s are allowed",
        help=helps,
        about=keys,
    )
