"""# diode against the scan

## What it does
Finds keys whose diode has its band toward the sensed wires: all of them, by the `diodes` statement,
or some, by `reversed`. What counts is where each key's own band points.

## Why it matters
The firmware pulls a driven wire low and the sensed wires rest high, so the current of a closed
switch flows from the sensed wire to the driven one. Current leaves a diode at its band. With the
band toward the sensed wire nothing flows, and the key is never seen.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward rows
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

A key under `reversed` is right where `diodes` has the wrong direction: with the bands toward the
rows and the columns driven, only the keys under `reversed` can be seen. So a single one may be
right, if no other key has a diode.

## Do instead
If the diodes are soldered already and all alike, swap `drive` and `sense`: nothing has to be
soldered. If they are not, or the statement was a typing mistake, write `band toward columns`. If
some point one way and some the other, one of the two kinds has to be reversed: the finding says
which are fewer.
```keys
wiring
  drive rows, sense columns
  diodes 1N4148, band toward rows
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

## Reference
A diode conducts from anode to cathode, and the band marks the cathode: any diode's datasheet, such
as Vishay 81857 for the 1N4148.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity, Wiring, common_diode
from matrixgen.model.prose import named, quoted
from matrixgen.rules.context import Context

PROBLEM = Problem("diode-against-scan", Severity.ERROR, __doc__ or "")

MOST_NAMED = 6


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding if the common direction is wrong, or else one for each key that differs."""
    wiring, contacts = context.keyboard.wiring, context.matrix.contacts
    against = [one.key for one in contacts if one.diode == "away"]
    seen = [one.key for one in contacts if one.diode == "toward"]
    if not against or (wiring.diodes is None and not seen):
        return  # where no direction is stated, diodes-not-stated asks for it
    if not seen:
        yield _all_wrong(wiring, against)
    elif common_diode(wiring) == "away":
        yield _mixed(wiring, against, seen)
    else:
        yield from _one_by_one(wiring, against, seen)


def _all_wrong(wiring: Wiring, against: list[str]) -> Diagnostic:
    """Return the finding of a keyboard whose diodes are all alike, and all against the scan."""
    assert wiring.diodes
    drive, sense = wiring.drive, wiring.sense
    is_by_exception = common_diode(wiring) == "toward"
    right = "remove `reversed`" if is_by_exception else f"write `band toward {drive}s`"
    return PROBLEM.at(
        wiring.diodes.span,
        "no key with a diode can be seen: the band of each key under `reversed` points toward the "
        f"{sense}s, which are sensed"
        if is_by_exception
        else f"no key with this diode can be seen: the band points toward the {sense}s, "
        "which are sensed",
        help=(
            f"if they are soldered this way: {_swapped(wiring)}",
            f"if they are not soldered yet, or can be reversed: {right}",
        ),
        notes=[Note("this sets what is driven and what is sensed", wiring.drive_span)],
        about=against,
    )


def _mixed(wiring: Wiring, against: list[str], seen: list[str]) -> Diagnostic:
    """Return the finding of a keyboard where only what `reversed` names can be seen."""
    assert wiring.diodes
    helps = [
        f"{_turned(against, 'these {} keys')}, write `band toward {wiring.drive}s` and "
        "remove `reversed`",
        f"{_turned(seen, 'the {} keys under `reversed`')}, remove `reversed` and "
        f"{_swapped(wiring)}",
    ]
    if len(seen) < len(against):
        helps.reverse()
    return PROBLEM.at(
        wiring.diodes.span,
        f"{named(against, 'key', MOST_NAMED)} can never be seen: the band points toward the "
        f"{wiring.sense}s, which are sensed, except for what `reversed` names",
        help=helps,
        notes=[Note("this sets what is driven and what is sensed", wiring.drive_span)],
        about=against,
    )


def _one_by_one(wiring: Wiring, against: list[str], seen: list[str]) -> Iterator[Diagnostic]:
    """Yield a finding for each key under `reversed`, whose wires could take it the other way."""
    first = next(word for word in wiring.reversed if word.text in against)
    notes = []
    if wiring.diodes:
        notes.append(Note("the other bands are as stated here", wiring.diodes.span))
    for word in wiring.reversed:
        if word.text not in against:
            continue  # duplicate-diode-exception, or on no wire yet
        few = len(seen) < len(against) and word is first and wiring.diodes is not None
        yield PROBLEM.at(
            word.span,
            f"`{word}` can never be seen: its diode's band points toward the {wiring.sense}s, "
            "which are sensed",
            help=[
                f"reverse the diode of `{word}` and remove this `reversed`",
                *([_other_way(wiring, seen)] if few else []),
            ],
            notes=notes,
            about=[word.text],
        )


def _other_way(wiring: Wiring, seen: list[str]) -> str:
    """Return the cure that leaves what is `reversed` as it is and turns the others."""
    return (
        f"{_turned(seen, 'the other {} keys')}, remove `reversed`, "
        f"write `band toward {wiring.sense}s` and {_swapped(wiring)}"
    )


def _turned(keys: list[str], many: str) -> str:
    """Return what to turn: keys by their names, or where there are many, in words."""
    each = "diode" if len(keys) == 1 else "diodes"
    which = quoted(keys) if len(keys) <= MOST_NAMED else many.format(len(keys))
    return f"reverse the {each} of {which}"


def _swapped(wiring: Wiring) -> str:
    return f"write `drive {wiring.sense}s, sense {wiring.drive}s`"
