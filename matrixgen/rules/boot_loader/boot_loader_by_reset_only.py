"""# boot loader by its reset button only

## What it does
Finds keys that start the boot loader, in a file whose controller has one that only its reset button
starts: its profile says `"kind": "reset button"`.

## Why it matters
The keys would restart the keyboard, and an image could not be loaded.

## Example
```keys
keyboard "Pad"
  controller  "reset-button.json"
  boot-loader hold A B

plate
  line A B

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on P1    A B
  column c0          on P2    A
  column c1          on X     B
```

## Do instead
Remove the statement, and leave the reset button within reach; or give the `boot_loader_entry` of
the boot loader that the controller has.
```keys
keyboard "Pad"
  controller  atmega32u4
  boot-loader hold A C
```

## Reference
`boards/profile.schema.json`, the field `boot_loader_entry`; `matrixgen boards NAME` shows a
profile.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.rules.boot_loader.asked import asked_for
from matrixgen.rules.context import MountedContext

PROBLEM = Problem("boot-loader-by-reset-only", Severity.WARNING, __doc__ or "")


def check(context: MountedContext) -> Iterator[Diagnostic]:
    """Yield each place that asks for what no key can start."""
    profile = context.profile
    entry = profile.boot_loader_entry
    if entry is None or entry.kind != "reset button" or not profile.has_boot_loader:
        return
    for span in asked_for(context.keyboard):
        yield PROBLEM.at(
            span,
            f"only the reset button starts the boot loader of `{profile.name}`, not a key",
            help="remove it, or give the profile another `boot_loader_entry`",
            notes=[Note("the firmware would restart the keyboard instead")],
        )
