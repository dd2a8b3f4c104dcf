"""# keys that overlap

## What it does
Finds keys whose outlines on the plate cover the same spot, rotated clusters included.

## Why it matters
Two switches cannot sit there. Often a tall key reaches into the next line, which needs a gap under
it, or two clusters are rotated into each other.

## Example
```keys
plate
  line A:1x2 B
  line C
```

## Do instead
```keys
plate
  line A:1x2 B
  line ~1    C
```

## Reference
Outlines are in key units, 19.05 mm (common practice, no source); less than 0.02 of one counts as
rounding.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from matrixgen.model import Cluster, Diagnostic, Key, Note, Problem, Severity
from matrixgen.model.prose import named
from matrixgen.rules.context import Context
from matrixgen.rules.plate.outlines import overlaps

PROBLEM = Problem("keys-overlap", Severity.WARNING, __doc__ or "")

Overlap = tuple[Key, Key]
"""A key, and the earlier one that it covers a part of."""

FEW = 4
"""How many covered keys a finding names."""


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each key that covers part of an earlier one, once; a misplaced cluster as a whole."""
    plate = context.keyboard.plate
    cluster_of = {key.name.text: line.cluster for line in plate.lines for key in line.keys}
    found = list(overlaps(context.keyboard.keys))
    reported: set[str] = set()
    for cluster in reversed(plate.clusters):  # the later one is the one out of place
        name = cluster.name.text
        outside = [
            (key, covered)
            for key, covered in found
            if (cluster_of[key.name.text] == name) != (cluster_of[covered.name.text] == name)
            and not {key.name.text, covered.name.text} <= reported
        ]
        if len(outside) > 1:
            reported |= {key.name.text for pair in outside for key in pair}
            yield _of_cluster(cluster, outside, cluster_of)
    for key, covered in found:
        if not {key.name.text, covered.name.text} <= reported:
            yield _of_key(key, covered)


def _of_cluster(
    cluster: Cluster, pairs: Iterable[Overlap], cluster_of: dict[str, str | None]
) -> Diagnostic:
    """Return the one finding about a cluster of which several keys lie on others."""
    names = dict.fromkeys(key.name.text for pair in pairs for key in pair)
    others = [name for name in names if cluster_of[name] != cluster.name.text]
    shown = named(others, "other key", FEW)
    return PROBLEM.at(
        cluster.place,
        f"the cluster `{cluster.name}` covers {shown}",
        help="`at` gives its top left corner, in key units from that of the plate; the cluster is "
        "rotated about it",
        about=[cluster.name.text, *names],
    )


def _of_key(key: Key, covered: Key) -> Diagnostic:
    return PROBLEM.at(
        key.name.span,
        f"`{key.name}` overlaps `{covered.name}` on the plate",
        help="move one of them: `~1` leaves a gap, and `in` and `down` shift a whole line",
        notes=[Note(f"`{covered.name}` is here", covered.name.span)],
        about=[key.name.text, covered.name.text],
    )
