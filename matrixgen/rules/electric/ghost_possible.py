"""# possible ghost

## What it does
Finds keys that make another key seem pressed when they are down together, although no combination
that this keyboard uses has them down together.

## Why it matters
Current can flow backwards through a switch without a diode. With three pressed keys at the corners
of a rectangle of wires, the fourth then seems pressed too. Fast fingers do press three keys at
once.

## Example
```keys
plate
  line A B
  line C D

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  without diode A B
  row    r0          on PD0   A B
  row    r1          on PD1   C D
  column c0          on PB0   A C
  column c1          on PB1   B D
```

## Do instead
Solder a diode where the finding says, and remove its key from `without diode`:
`matrixgen check --fix-also ghost-possible` does the second. For a key that is never pressed with
others, write `allow ghost-possible A` instead.
```keys
plate
  line A B
  line C D

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  row    r1          on PD1   C D
  column c0          on PB0   A C
  column c1          on PB1   B D
```

## Reference
Kirchhoff's laws: current takes every closed path from a sensed wire to the driven one. A path over
several diodes counts too, although its level may be too high to read as low.
"""

from collections.abc import Iterator

from matrixgen.circuit.effort import Effort
from matrixgen.circuit.fewest_diodes import fewest_diodes
from matrixgen.circuit.ghost_report import GhostReport
from matrixgen.circuit.ghosts import Ghost, minimal_ghosts
from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.model.prose import quoted
from matrixgen.rules.context import Context
from matrixgen.rules.electric.ghost_cure import diodes_fix, diodes_help, place_of
from matrixgen.rules.electric.ghost_figure import ghost_figure

PROBLEM = Problem("ghost-possible", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding for the file, and one for the ghosts that it allows, if it has any."""
    ghosts = context.ghosts
    if context.is_all_against_scan or not ghosts.network.can_ghost:
        return  # diode-against-scan says more
    allowed = _allowed(context)
    for expected in (False, True) if allowed else (False,):
        effort = Effort()
        smallest = _smallest(ghosts, allowed, expected, effort)
        if smallest:
            yield _finding(context, smallest, allowed, expected)
        elif effort.is_spent:
            yield _not_searched(context, allowed, expected)


def _finding(
    context: Context, smallest: Ghost, allowed: frozenset[str], expected: bool
) -> Diagnostic:
    ghosts = context.ghosts
    keys = [one.key for one in ghosts.matrix.contacts if one.key in smallest.keys]
    leaking = _leaking(ghosts)
    diodes = _diodes(ghosts, frozenset() if expected else allowed)
    return PROBLEM.at(
        place_of(context, smallest.back),
        f"{quoted(keys)} down together make `{smallest.seen.key}` seem pressed",
        help=diodes_help(context, diodes, "no combination of keys makes a ghost"),
        notes=list(_notes(ghosts)),
        about=leaking & allowed if expected else leaking - allowed,
        fix=diodes_fix(context, diodes),
        figure=ghost_figure(smallest, ghosts.matrix, context.keyboard.wiring.drive),
    )


def _not_searched(context: Context, allowed: frozenset[str], expected: bool) -> Diagnostic:
    """Return the finding for a matrix that would take too long to search for ghosts."""
    ghosts = context.ghosts
    bare = [one for one in ghosts.matrix.contacts if one.diode == "none"]
    keys = [one.key for one in bare]
    leaking = _leaking(ghosts)
    return PROBLEM.at(
        place_of(context, bare),
        "these keys may make another key seem pressed: there are too many ways to try them all",
        help=diodes_help(context, keys, "no combination of keys makes a ghost"),
        about=leaking & allowed if expected else leaking - allowed,
        fix=diodes_fix(context, keys),
    )


def _notes(ghosts: GhostReport) -> Iterator[Note]:
    yield Note(f"{_sets(ghosts)} some key seem pressed")
    if ghosts.is_smallest:
        yield Note(f"up to {(ghosts.smallest_size or 1) - 1} keys at once never make a ghost")
    if not ghosts.has_all_used:
        yield Note("not all combinations that this keyboard uses were tried: there are too many")


def _leaking(ghosts: GhostReport) -> set[str]:
    """Return the keys that current can flow back through."""
    return {one.key for keys in ghosts.network.out_of_drive for one in keys}


def _sets(ghosts: GhostReport) -> str:
    """Return how many sets of keys there are, with the verb that goes with them."""
    return "1 set of keys makes" if ghosts.count == 1 else f"{ghosts.counted} sets of keys make"


def _diodes(ghosts: GhostReport, allowed: frozenset[str]) -> tuple[str, ...]:
    """Return the fewest keys to give a diode, so that no ghost is left but by allowed keys."""
    if not allowed:
        return ghosts.for_all.keys
    return fewest_diodes(ghosts.matrix, lambda ghost: not _back(ghost) <= allowed, Effort())


def _back(ghost: Ghost) -> frozenset[str]:
    return frozenset(one.key for one in ghost.back)


def _smallest(
    ghosts: GhostReport, allowed: frozenset[str], expected: bool, effort: Effort
) -> Ghost | None:
    """Return the first of the smallest ghosts that the keymap does not make itself.

    It is one that allowed keys alone let through if it is `expected`, or else one of the others.
    """
    leaking = _leaking(ghosts)
    if leaking.isdisjoint(allowed) if expected else leaking <= allowed:
        return None
    found = (
        ghost
        for ghost in minimal_ghosts(ghosts.network, effort=effort)
        if (_back(ghost) <= allowed) == expected
        and effort.spend(len(ghosts.uses.all) // 4)
        and not ghosts.is_used(ghost)
    )
    best: Ghost | None = None
    for ghost in found:
        if best is None or len(ghost.pressed) < len(best.pressed):
            best = ghost
        if len(best.pressed) == ghosts.smallest_size:
            break
    return best


def _allowed(context: Context) -> frozenset[str]:
    """Return the keys that the file allows to let current back."""
    return frozenset(
        place.text
        for allowance in context.allowances
        if allowance.slug.text == PROBLEM.slug
        for place in allowance.places
    )
