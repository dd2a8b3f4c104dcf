"""# wire without a route

## What it does
Finds a wire that cannot get from one of its keys to the next round screw holes, keep-clear areas,
lights, knobs, stabilisers and the switches in between. It looks at plates with one of the first
four.

## Why it matters
A wire under a screw's head is cut sooner or later, and a keep-clear area is for something that will
be there. The bench sheet has to draw such a wire straight through.

## Example
```keys
plate
  line A ~2  B
  keep clear 2.5, -0.5, 0.3, 2
  keep clear 2.5, -0.5, 2,   0.3
  keep clear 2.5, 1.2,  2,   0.3
  keep clear 4.2, -0.5, 0.3, 2

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

## Do instead
```keys
plate
  line A ~2  B
  keep clear 2.5, -0.5, 2,   0.3
  keep clear 2.5, 1.2,  2,   0.3
  keep clear 4.2, -0.5, 0.3, 2

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

## Reference
`grammar/README.md`, the block `plate`. Routes are found as in the bench sheet: legs of the common
switch and a pitch of 19.05 mm are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from matrixgen.model import Diagnostic, Note, Plate, Problem, Severity
from matrixgen.model.prose import named
from matrixgen.routing import Hop, Run, back_of
from matrixgen.rules.context import Context
from matrixgen.rules.plate.cut_outs import under_areas, under_heads
from matrixgen.rules.plate.fences import may_fence

MOST_PIECES = 200_000
"""Pieces of possible routes that a check thinks of: some half a second's worth (a choice)."""

FEW = 4
"""How many wires without a search the finding names."""

PROBLEM = Problem("wire-without-route", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each wire that has no way between two of its keys, once."""
    plate = context.keyboard.plate
    if not may_fence(plate) or _is_over_a_key(plate):
        return
    back = back_of(context.keyboard, MOST_PIECES)
    for run in back.runs:
        stuck = [n for n, hop in enumerate(run.hops) if hop.route is None and not hop.is_left_out]
        if stuck:
            yield _of(run, stuck[0], run.hops[stuck[0]])
    if back.left_out:
        yield _left_out(back.left_out)


def _is_over_a_key(plate: Plate) -> bool:
    """Whether a switch itself is in the way, which another rule tells."""
    return any(chain(under_heads(plate), under_areas(plate)))


def _left_out(runs: tuple[Run, ...]) -> Diagnostic:
    names = [run.line.name.text for run in runs]
    return PROBLEM.at(
        runs[0].line.name.span,
        f"{named(names, 'wire', FEW)} may have no route: there is too much in the way to try "
        "every way round it here",
        help="`matrixgen sheet` looks for longer",
        about=names,
    )


def _of(run: Run, place: int, hop: Hop) -> Diagnostic:
    visit = run.line.visits[place + 1]
    return PROBLEM.at(
        visit.span,
        f"`{run.line.name}` has no route from `{hop.start.key}` to `{hop.end.key}`",
        help="visit the keys in another order, or leave a gap in the keep-clear areas",
        notes=[Note(f"`{hop.start.key}` is here", run.line.visits[place].span)],
        about=[run.line.name.text, hop.start.key, hop.end.key],
    )
