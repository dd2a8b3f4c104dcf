"""Which hand keys are of, where a key that is tapped or held decides by it."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.compare.change import Change
from matrixgen.compare.view import MOST_NAMED, View
from matrixgen.model.prose import named

HANDS = {"left": "of the left hand", "right": "of the right hand", "neither": "of neither hand"}


def of_hands(view: View) -> Iterator[Change]:
    """Yield one change for all keys of both files that go from one hand to another."""
    changed: dict[tuple[str, str], list[str]] = {}
    for edit in view.of("hand"):
        if edit.old is not None and edit.new is not None:
            changed.setdefault((edit.old, edit.new), []).append(edit.path[1])
    for (old, new), keys in changed.items():
        which = named(keys, "key", MOST_NAMED)
        yield Change(
            kind="reflash",
            slug="hands-changed",
            text=f"{which}: now {HANDS[new]}, not {HANDS[old]}, which matters to `other hand`",
            thing="hand",
            keys=tuple(keys),
            old=old,
            new=new,
        )
