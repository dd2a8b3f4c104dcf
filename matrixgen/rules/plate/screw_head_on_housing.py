"""# screw head on a housing

## What it does
Finds a `hole` whose screw's head has no room on the front of the plate: it reaches into the housing
of a switch, 15.6 mm square, or into the cut-out of a stabiliser.

## Why it matters
A switch stands on the plate with a rim, which is wider than its cut-out. The head, or a nut there,
keeps the switch from lying flat, so that it does not clip in.

## Example
```keys
plate
  line A B
  line C
  hole at 1, 1
```

## Do instead
```keys
plate
  line A B
  line C
  hole at 1, 1 for M2
```

Or countersink the hole in a plate that is thick enough, or screw from behind into a thread in the
plate, and `allow screw-head-on-housing`. If a long key needs no stabiliser: `stabiliser none A`.

## Reference
The head is taken to be on the front, among the keycaps. 15.6 mm is the housing in a switch maker's
page; its corners are taken as sharp, which they are not quite (memory). Between two keys of one
unit are 3.45 mm, and no head has room; where four meet, an M2's has. Heads: M2 4.4 and M2.5 5.4 mm
(ISO 7045, and 0.4 mm more), M3 6 mm (common practice, no source). A keycap's edge comes down to 2
or 3 mm above the plate (memory), and a pan head is 1.6 mm high for M2, 2.1 for M2.5, 2.4 for M3
(ISO 7045): heights are not compared. Heads in a cut-out of a switch are `hole-under-key`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from matrixgen.model import Diagnostic, Hole, Key, Note, Plate, Problem, Severity
from matrixgen.model.plate import SCREWS, Screw
from matrixgen.model.prose import quoted
from matrixgen.model.switch import RIM_MM, middle_mm
from matrixgen.plate.openings import Bar, housing_at, openings_of
from matrixgen.plate.webs import is_nearer, may_reach
from matrixgen.rules.context import Context

PROBLEM = Problem("screw-head-on-housing", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each hole whose screw's head is in the way of housings, but in no switch's cut-out."""
    plate = context.keyboard.plate
    if not plate.holes:
        return
    bars = [one for one in openings_of(plate) if isinstance(one, Bar)]
    for hole in plate.holes:
        far = RIM_MM + hole.screw.head_mm
        near = [one for one in bars if may_reach(one, middle_mm(hole), far)]
        met = [one for one in near if in_the_way(hole, one)]
        if met and not any(_is_in(hole, one) for one in met):
            yield _found(plate, hole, met, near)


def _is_in(hole: Hole, bar: Bar) -> bool:
    """Whether a screw's head reaches into a switch's own cut-out."""
    return bar.kind == "switch" and is_nearer(bar, middle_mm(hole), hole.screw.head_mm / 2)


def in_the_way(hole: Hole, bar: Bar, screw: Screw | None = None) -> bool:
    """Whether a screw's head in a hole reaches into what stands in an opening, on the front."""
    head = (screw or hole.screw).head_mm / 2
    return is_nearer(housing_at(bar), middle_mm(hole), head)


def _found(plate: Plate, hole: Hole, met: Sequence[Bar], near: Sequence[Bar]) -> Diagnostic:
    names = tuple(dict.fromkeys(one.key for one in met))
    return PROBLEM.at(
        hole.span,
        f"the head of a screw in this hole is in the way of {_things(met)}",
        help=_help(hole, met, near),
        notes=[_note(plate.key_of[name]) for name in names],
        about=names,
    )


def _note(key: Key) -> Note:
    return Note(f"`{key.name}` is here", key.name.span)


def _things(met: Sequence[Bar]) -> str:
    """Return what is in the way, in words."""
    switches, stabilisers = _names(met, "switch"), _names(met, "stabiliser")
    of_kind = {
        f"the switch{'es' * (len(switches) > 1)} of": switches,
        f"the stabiliser{'s' * (len(stabilisers) > 1)} of": stabilisers,
    }
    return " and ".join(f"{what} {quoted(names)}" for what, names in of_kind.items() if names)


def _names(met: Iterable[Bar], kind: str) -> list[str]:
    return list(dict.fromkeys(one.key for one in met if one.kind == kind))


def _help(hole: Hole, met: Sequence[Bar], near: Sequence[Bar]) -> list[str]:
    """Return the cures: a smaller screw where one has room, and what always helps."""
    fits = (screw.name for screw in _fits(hole, near))
    helps = [f"take a smaller screw: one `for {name}` has room here" for name in fits]
    helps.append("move it, or sink the head into the plate and `allow screw-head-on-housing`")
    bare = _names(met, "stabiliser")
    if bare:
        helps.append(f"write `stabiliser none {bare[0]}` if that key needs none")
    return helps


def _fits(hole: Hole, near: Sequence[Bar]) -> list[Screw]:
    """Return the largest of the smaller screws that have room in a hole's place, if any has."""
    smaller = [one for one in SCREWS if one.nominal < hole.nominal]
    return [one for one in smaller if not any(in_the_way(hole, bar, one) for bar in near)][-1:]
