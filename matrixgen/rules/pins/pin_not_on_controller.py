"""# pin that is not on the controller

## What it does
Finds a wire, a light or a knob on a pin that the controller does not have, neither by its name in
the datasheet nor by its label on the board.

## Why it matters
The wire cannot be soldered, or it is soldered to another pin than the file says.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB9   B
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
`matrixgen boards NAME` lists a controller's pins; the profile names the datasheet.
"""

from collections.abc import Iterator

from matrixgen.boards.pin import Pin
from matrixgen.boards.pin_words import likely_pins
from matrixgen.model import Diagnostic, Edit, Fix, Note, Problem, Severity, Word
from matrixgen.rules.context import MountedContext, spare_pin_help

PROBLEM = Problem("pin-not-on-controller", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each use of a pin unknown to the profile."""
    profile = context.profile
    for _, _, word in context.mounted.words:
        if not profile.pin(word.text):
            help, fix = _cure(context, word)
            yield PROBLEM.at(
                word.span,
                f"`{profile.name}` has no pin `{word}`",
                help=help,
                notes=[Note(f"`matrixgen boards {profile.path or profile.name}` lists its pins")],
                fix=fix,
            )


def _cure(context: MountedContext, word: Word) -> tuple[list[str], Fix | None]:
    """Return what to do; a pin is never guessed at by its spelling, but for capitals."""
    profile = context.profile
    spelt = profile.in_other_case(word.text)
    if spelt is not None:
        fix = Fix(f"write `{spelt}` for `{word}`", (Edit(word.span, spelt),))
        return [f"the pin is called `{spelt}`"], fix
    likely = likely_pins(word.text, profile)
    return [_likely_help(pin) for pin in likely] or [spare_pin_help(context)], None


def _likely_help(pin: Pin) -> str:
    if pin.label is None:
        return f"write `{pin.name}` if you mean that pin"
    return f"write `{pin.label}` if you mean the pin with that label on this board, `{pin.name}`"
