"""# light or knob over a switch

## What it does
Finds a light or a knob on the plate that reaches onto the housing of a switch or into the cut-out
of a stabiliser, onto the head of a screw, or onto another light or knob.

## Why it matters
Both do not fit, and this shows only once the plate is cut.

## Example
```keys
plate
  line A B C
  light CapsLock at 1.2, 0.5
```

## Do instead
```keys
plate
  line A B C
  light CapsLock at 1, 1

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B C
  column c0          on PB0   A
  column c1          on PB1   B
  column c2          on PB2   C
  light CapsLock    on PB3
```

A key whose middle is a knob's is the switch that is pressed with it, and has no cut-out.

## Reference
A switch's housing has 15.6 mm (a switch maker's page), turned as its key is. A light is an LED of 3
mm, whose flange has 4.0 mm (LED drawings). A knob's body has 12.0 by 11.6 mm (KiCad's footprint of
an encoder of 11 mm), and may lie as it likes: a circle of 16.7 mm. Where it is outside of the
plate's outline is found by `thin-web`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist

from matrixgen.model import ComponentPlace, Diagnostic, Note, Plate, Problem, Severity, Span
from matrixgen.model.geometry import centre_of
from matrixgen.model.prose import listed
from matrixgen.model.switch import middle_mm
from matrixgen.plate.openings import Bar, Circle, housing_at, openings_of
from matrixgen.plate.webs import ROUNDING_MM, is_nearer
from matrixgen.rules.context import Context

PROBLEM = Problem("part-over-switch", Severity.ERROR, __doc__ or "")

NEAR_UNITS = 0.5
MOVE_IT = "move it: an LED fits between two keys, a knob takes a key's field"


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each component that something else is in the way of."""
    plate = context.keyboard.plate
    if not plate.components:
        return
    bars = [one for one in openings_of(plate) if isinstance(one, Bar)]
    for number, one in enumerate(plate.components):
        met = [*_bars_met(plate, one, bars), *_round_ones_met(plate, number)]
        if met:
            things = dict(met)
            yield PROBLEM.at(
                one.span,
                f"the {one.kind} `{one.name}` is in the way of {listed(things)}",
                help=(MOVE_IT, *_if_pressed(plate, one)),
                notes=[Note(f"{thing} is here", span) for thing, span in things.items()],
            )


def _if_pressed(plate: Plate, one: ComponentPlace) -> Iterator[str]:
    """Yield what to write if a key is the knob's own switch: the one whose middle is nearest."""
    name, middle = min(
        ((key.name.text, centre_of(key)) for key in plate.keys),
        key=lambda found: dist(found[1], (one.x, one.y)),
    )
    if one.kind == "knob" and dist(middle, (one.x, one.y)) <= NEAR_UNITS:
        x, y = (round(each, 3) for each in middle)
        yield f"if `{name}` is the switch in the knob, write `at {x:g}, {y:g}`, its middle"


def reaches(one: ComponentPlace, bar: Bar) -> bool:
    """Whether a component reaches onto a switch's housing, or into the cut-out of a stabiliser."""
    return is_nearer(housing_at(bar), middle_mm(one), one.size.room_mm / 2)


def are_in_each_other_s_way(plate: Plate, one: Circle, other: Circle) -> bool:
    """Whether a part has no room beside a screw's head or another part; two screws always have."""
    if "hole" == one.kind == other.kind:
        return False
    room = sum(_room(plate, each) for each in (one, other)) / 2
    return dist(one.middle, other.middle) < room - ROUNDING_MM


def _room(plate: Plate, one: Circle) -> float:
    if one.kind == "hole":
        return plate.holes[one.number].screw.head_mm
    return plate.components[one.number].size.room_mm


def _bars_met(plate: Plate, one: ComponentPlace, bars: Sequence[Bar]) -> Iterator[tuple[str, Span]]:
    for bar in bars:
        if reaches(one, bar):
            yield f"the {bar.kind} of `{bar.key}`", plate.key_of[bar.key].name.span


def _round_ones_met(plate: Plate, number: int) -> Iterator[tuple[str, Span]]:
    """Yield the screws, and the components before this one in the file, that it reaches."""
    circles = [one for one in openings_of(plate) if isinstance(one, Circle)]
    holes, parts = circles[: len(plate.holes)], circles[len(plate.holes) :]
    for circle in (*holes, *parts[:number]):
        if not are_in_each_other_s_way(plate, circle, parts[number]):
            continue
        if circle.kind == "hole":
            hole = plate.holes[circle.number]
            yield f"the screw at {hole.x:g}, {hole.y:g}", hole.span
        else:
            other = plate.components[circle.number]
            yield f"the {other.kind} `{other.name}`", other.span
