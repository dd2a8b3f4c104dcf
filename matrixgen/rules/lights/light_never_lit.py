"""# light that is never lit

## What it does
Finds a light whose layer no key turns on, or whose layers are never on at the same time.

## Why it matters
It is soldered, and never lit.

## Example
```keys
plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
  light both        on PB2  while one and two are on

layer base
  A = hold layer one  B = hold layer two

layer one
  B = 2

layer two
  A = 1
```

## Do instead
```keys
plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
  light one         on PB2  while one is on

layer base
  A = hold layer one

layer one
  B = 2
```

## Reference
`grammar/README.md`, the section "Lights".
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Keyboard, Light, Problem, Severity
from matrixgen.model.prose import quoted
from matrixgen.rules.context import Context

PROBLEM = Problem("light-never-lit", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each light of layers that no state has."""
    keyboard = context.keyboard
    of_layers = [light for light in keyboard.wiring.lights if light.layers]
    if not of_layers:
        return
    keys = context.layer_keys
    states = [frozenset(keys.names_of(state.layers)) for state in keys.states()]
    for light in of_layers if keys.has_all_states else ():
        asked = {word.text for word in light.layers}
        if not any(asked <= state for state in states):
            yield _found(keyboard, light)


def _found(keyboard: Keyboard, light: Light) -> Diagnostic:
    names = [word.text for word in light.layers]
    are = "is never on" if len(names) == 1 else "are never on together"
    return PROBLEM.at(
        light.name.span,
        f"the light `{light.name}` is never lit: {quoted(names)} {are}",
        help=f"give a key of `{keyboard.layers[0].name}` the action `hold layer {names[0]}`",
        about=[light.name.text],
    )
