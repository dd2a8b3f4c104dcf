"""# controller without a boot loader

## What it does
Finds a way into the boot loader, in a file whose controller has none: its profile says
`"boot_loader_bytes": 0`, and its chip has none in ROM.

## Why it matters
The firmware would jump to flash that holds no program.

## Example
```keys
keyboard "Pad"
  controller  "three-pins.json"
  boot-loader hold A B

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on P1  A B
  column c0 on P2  A
  column c1 on X   B
```

## Do instead
Take the statement out; a programmer loads such a chip, whatever it runs.
```keys
keyboard "Pad"
  controller atmega32u4
```

## Reference
`boards/profile.schema.json`, the field `boot_loader_bytes`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Keyboard, Problem, Severity, Span, starts_boot_loader
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("controller-without-boot-loader", Severity.ERROR, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each place that asks for a boot loader which is not there."""
    if context.profile.has_boot_loader:
        return
    for span in _asked(context.keyboard):
        yield PROBLEM.at(
            span,
            f"`{context.profile.name}` has no boot loader to start",
            help="remove it; if there is one, give its size in the profile's `boot_loader_bytes`",
        )


def _asked(keyboard: Keyboard) -> Iterator[Span]:
    """Yield where the file asks for the boot loader; `double reset` has a rule of its own."""
    if keyboard.boot_loader.hold_span:
        yield keyboard.boot_loader.hold_span
    for named in keyboard.actions:
        if starts_boot_loader(named.action):
            yield named.name.span
    names = {named.name.text for named in keyboard.actions}
    for cell in (cell for layer in keyboard.layers for cell in layer.cells):
        if starts_boot_loader(cell.action) and cell.written.text not in names:
            yield cell.written.span
