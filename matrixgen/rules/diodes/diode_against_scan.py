"""# diode against the scan

## What it does
Finds diodes whose band points toward the sensed lines: all of them, by the `diodes` statement, or
one key's, by `reversed`.

## Why it matters
The firmware pulls a driven line low and the sensed lines rest high, so the current of a closed
switch flows from the sensed line to the driven one. A diode lets current out at its band. With the
band toward the sensed line nothing flows, and the key can never be seen.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward rows
  row    r0 on PD0  A B
  column c0 on PB0  A
  column c1 on PB1  B
```

## Do instead
Where the diodes are soldered already, swap `drive` and `sense`, and nothing needs the iron. Where
they are not, or the sentence was a slip, write `band toward columns`.
```keys
wiring
  drive rows, sense columns
  diodes 1N4148, band toward rows
  row    r0 on PD0  A B
  column c0 on PB0  A
  column c1 on PB1  B
```

## Reference
A diode conducts from anode to cathode, and the band marks the cathode: any diode's datasheet, such
as Vishay 81857 for the 1N4148.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity, Wiring, common_diode
from matrixgen.rules.context import Context

PROBLEM = Problem("diode-against-scan", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding if the common direction is wrong, or else one a key that differs."""
    wiring = context.keyboard.wiring
    if wiring.diodes is None:
        return  # diodes-not-stated asks for the statement
    if common_diode(wiring) == "away":
        yield _all_wrong(wiring)
        return
    against = {one.key for one in context.matrix.contacts if one.diode == "away"}
    for word in wiring.reversed:
        if word.text not in against:
            continue  # diode-exception-twice, or on no wire yet
        yield PROBLEM.at(
            word.span,
            f"`{word}` can never be seen: its diode's band points toward the {wiring.sense}s, "
            "which are sensed",
            help=f"turn the diode of `{word}` round and remove this `reversed`",
            notes=[Note("the other bands are as stated here", wiring.diodes.span)],
        )


def _all_wrong(wiring: Wiring) -> Diagnostic:
    assert wiring.diodes
    drive, sense = wiring.drive, wiring.sense
    return PROBLEM.at(
        wiring.diodes.span,
        f"no key with this diode can be seen: the band points toward the {sense}s, "
        "which are sensed",
        help=(
            f"if they are soldered so: write `drive {sense}s, sense {drive}s`",
            f"if they are not, or can be turned: write `band toward {drive}s`",
        ),
        notes=[Note("what is driven and what is sensed is said here", wiring.drive_span)],
    )
