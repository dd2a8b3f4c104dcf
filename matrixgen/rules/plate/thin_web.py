"""# thin web

## What it does
Finds two openings of the plate with less than 1.3 mm of it between them, or none: cut-outs of
stabilisers, of switches and holes of screws, lights and knobs. It finds an opening that is so near
to the plate's edge, too, and what lies outside of it.

## Why it matters
A cutter burns or breaks such a strip away, and a printer leaves it out. A stabiliser does not clip
into a cut-out that is open on one side.

## Example
```keys
plate
  line A:2 B C
  hole at 1.93, 0.5 for M2
```

## Do instead
```keys
plate
  line A:2 B C
  hole at 2, 1 for M2
```

Or say that a long key has no stabiliser, as in `stabiliser none A`. Where your cutter can do it,
`allow thin-web`.

## Reference
Guides of sheet-metal cutters want webs of 0.7 to 1 times the sheet, which is 1.5 mm where switches
clip onto it; 1.3 mm is a choice between. The stabiliser of a key of 2 units leaves 1.4 mm, an M2
screw between two keys 1.33 mm, an M3 where four keys meet 1.87 mm.
Cut-outs: 14 mm for a switch (common practice, no source), 7 by 15 mm for a stabiliser (from
memory). Switches of keys that overlap are not found here, nor is a screw whose head has no room,
which is `screw-head-on-housing`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice

from matrixgen.model import Diagnostic, Note, Plate, Problem, Severity, Span
from matrixgen.model.plate import CornerOutline
from matrixgen.model.prose import listed
from matrixgen.plate.openings import Bar, Circle, Opening, openings_of
from matrixgen.plate.outline import margin_and_radius, outline_of
from matrixgen.plate.webs import Web, thin_webs
from matrixgen.rules.context import Context
from matrixgen.rules.plate.outlines import do_overlap
from matrixgen.rules.plate.part_over_switch import are_in_each_other_s_way, reaches
from matrixgen.rules.plate.screw_head_on_housing import in_the_way

PROBLEM = Problem("thin-web", Severity.WARNING, __doc__ or "")

LEAST_MM = 1.3

FEW = 3
"""How many openings outside of the plate are named."""

MOST = 500
"""How many thin webs are looked at: a plate with more needs other keys first."""

Things = tuple[str, str]


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each two things with too little of the plate between them, once."""
    plate = context.keyboard.plate
    words = _Words(plate)
    thinnest: dict[Things, Web] = {}
    openings = openings_of(plate)
    for web in islice(thin_webs(openings, LEAST_MM), MOST):
        things = words.of(web.openings[0]), words.of(web.openings[1])
        known = thinnest.get(things)
        if not words.has_another_rule(web) and (known is None or web.width < known.width):
            thinnest[things] = web
    for things, web in thinnest.items():
        yield _found(words, things, web)
    yield from _at_the_edge(plate, openings, words)


def _at_the_edge(plate: Plate, openings: Sequence[Opening], words: _Words) -> Iterator[Diagnostic]:
    """Yield what is too near to the plate's edge, and then all that is outside, at once."""
    if not plate.keys or _is_wide_enough(plate):
        return
    from matrixgen.plate.edge import near_edge  # only here: a usual plate ends far enough away

    near: dict[str, tuple[Opening, float]] = {}
    for one, left in near_edge(openings, outline_of(plate), LEAST_MM):
        near.setdefault(words.of(one), (one, left))
    for thing, (one, left) in near.items():
        if left >= 0:
            much = f"{left:.1f} mm of the plate is" if left else "nothing of the plate is"
            yield PROBLEM.at(
                words.span(one),
                f"{much} left between {thing} and the plate's edge",
                help=_wider(plate),
                about=[one.key] if isinstance(one, Bar) else [],
            )
    outside = [(thing, one) for thing, (one, left) in near.items() if left < 0]
    if outside and plate.outline:
        yield _outside(plate.outline.span, outside, words)


def _is_wide_enough(plate: Plate) -> bool:
    """Whether all keys are inside anyhow.

    Corners that are no rounder than the margin is wide come no nearer to a key than its sides.
    """
    margin, radius = margin_and_radius(plate)
    narrow = any(min(key.width, key.height) < 1 for key in plate.keys)
    is_round_all = not isinstance(plate.outline, CornerOutline)
    return is_round_all and margin >= max(LEAST_MM, radius) and not narrow


def _wider(plate: Plate) -> str:
    if isinstance(plate.outline, CornerOutline):
        return "move the corners of `outline from` outwards, or take a smaller `radius`"
    return "give it a wider margin or less round corners, as in `outline margin 6 mm`"


def _outside(span: Span, outside: Sequence[tuple[str, Opening]], words: _Words) -> Diagnostic:
    """Return the finding of all that is not on the plate at all."""
    things = [thing for thing, _ in outside]
    more = f" and {len(things) - FEW} more openings" if len(things) > FEW + 1 else ""
    named = things[:FEW] if more else things
    return PROBLEM.at(
        span,
        f"{listed(named) if not more else ', '.join(named)}{more} "
        f"{'lies' if len(things) == 1 else 'lie'} outside of the plate's outline",
        help="its corners are in key units from the plate's upper left corner, as keys are",
        notes=[Note(f"{things[0]} is here", words.span(outside[0][1]))],
        about=[one.key for _, one in outside if isinstance(one, Bar)],
    )


def _found(words: _Words, things: Things, web: Web) -> Diagnostic:
    one, other = web.openings
    left = f"{web.width:.1f} mm of the plate is" if web.width else "nothing of the plate is"
    return PROBLEM.at(
        words.span(one),
        f"{left} left between {things[0]} and {things[1]}",
        help=_help(web),
        notes=[Note(f"{things[1]} is here", words.span(other))],
        about=[bar.key for bar in web.openings if isinstance(bar, Bar)],
    )


def _help(web: Web) -> str:
    bare = next((one for one in web.openings if one.kind == "stabiliser"), None)
    if not isinstance(bare, Bar):
        return "move one of them"
    return f"move one of them, or write `stabiliser none {bare.key}` if that key needs none"


class _Words:
    """What openings are called, and where the file says them."""

    def __init__(self, plate: Plate) -> None:
        self._keys = plate.key_of
        self._plate = plate
        self._holes, self._components = plate.holes, plate.components

    def has_another_rule(self, web: Web) -> bool:
        """Whether a screw's head has no room, or both belong to keys that lie on each other."""
        one, other = web.openings
        if isinstance(one, Bar) and isinstance(other, Bar):
            keys = self._keys[one.key], self._keys[other.key]
            return one.key != other.key and do_overlap(*keys)
        if isinstance(one, Circle) and isinstance(other, Circle):
            return are_in_each_other_s_way(self._plate, one, other)
        hole, bar = (one, other) if isinstance(one, Circle) else (other, one)
        assert isinstance(hole, Circle) and isinstance(bar, Bar)
        if hole.kind != "hole":
            return reaches(self._components[hole.number], bar)
        return bar.kind == "switch" or in_the_way(self._holes[hole.number], bar)

    def of(self, one: Opening) -> str:
        """Return what an opening is, in words."""
        if isinstance(one, Bar):
            kind = "stabiliser" if one.kind == "stabiliser" else "cut-out"
            return f"the {kind} of `{one.key}`"
        if one.kind != "hole":
            return f"the {one.kind} `{self._components[one.number].name}`"
        hole = self._holes[one.number]
        return f"the screw hole at {hole.x:g}, {hole.y:g}"

    def span(self, one: Opening) -> Span:
        """Return where the file says it."""
        if isinstance(one, Bar):
            return self._keys[one.key].name.span
        if one.kind != "hole":
            return self._components[one.number].span
        return self._holes[one.number].span
