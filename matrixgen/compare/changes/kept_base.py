"""What becomes of a base that a keyboard remembers over a power cut, and over a new image."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from matrixgen.compare.change import Change
from matrixgen.model import BASE, Keyboard
from matrixgen.model.bases import bases_of


def of_kept_base(old: Keyboard, new: Keyboard, renames: Mapping[str, str]) -> Iterator[Change]:
    """Yield each base that the old image may have kept and that the new one takes for another.

    `renames` has new names of layers by old ones. An image believes a kept base where it has as
    many of them (`emit/timed_views.py`).
    """
    if old.remember_base is None or new.remember_base is None:
        return
    before, after = bases_of(old), bases_of(new)
    for place, layer in enumerate(before[1:], start=1):
        then = after[place] if len(after) == len(before) else BASE
        if then != renames.get(layer, layer):
            starts = "starts at" if then == BASE else "will take it for"
            yield Change(
                kind="reflash",
                slug="kept-base-lost",
                text=f"a keyboard that has kept the base `{layer}` {starts} `{then}`",
                thing="kept base",
                layer=then,
                old=layer,
                new=then,
            )
