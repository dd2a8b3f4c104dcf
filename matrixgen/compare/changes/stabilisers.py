"""Which keys are to have no stabiliser: another plate."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.compare.change import BenchStep, Change
from matrixgen.compare.view import View
from matrixgen.model.prose import quoted


def of_stabilisers(view: View) -> Iterator[Change]:
    """Yield what changed of the keys that both files have: those that lose one, those that get one.

    A new key brings its own.
    """
    kept = set(view.kept_keys)
    edits = [edit for edit in view.of("without_stabiliser") if edit.path[1] in kept]
    for is_gone in (True, False):
        keys = tuple(edit.path[1] for edit in edits if bool(edit.new) == is_gone)
        if keys:
            yield _change(keys, is_gone=is_gone)


def _change(keys: tuple[str, ...], *, is_gone: bool) -> Change:
    words = "without a stabiliser" if is_gone else "with a stabiliser, if it is long"
    return Change(
        kind="solder",
        slug="stabiliser-removed" if is_gone else "stabiliser-added",
        text=f"{quoted(keys)} {'is' if len(keys) == 1 else 'are'} now {words}",
        thing="stabiliser",
        keys=keys,
        steps=(BenchStep("plate", f"cut the plate again, {quoted(keys)} {words}"),),
    )
