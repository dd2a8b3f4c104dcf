"""How the plate is cut or printed: what switches sit in, and how thick it is."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from matrixgen.compare.change import BenchStep, Change
from matrixgen.compare.changes.outline import more
from matrixgen.compare.fact_words import cut_out_words
from matrixgen.compare.facts import CUT_OUT, THICKNESS
from matrixgen.compare.view import View


def of_cutting(view: View) -> Iterator[Change]:
    """Yield what changed in how large its cut-outs are, and how thick it is."""
    for edit in view.of("on plate"):
        change = OF_FIELD.get(edit.path[1])
        if change:
            yield change(edit.old, edit.new)


def _cut_out(old: Any, new: Any) -> Change:
    wider, higher = new[0] - old[0], new[1] - old[1]
    words = [more(wider, "wider", "narrower")] if wider else []
    words += [more(higher, "higher", "lower")] if higher else []
    return Change(
        kind="solder",
        slug="cut-out-changed",
        text=f"the cut-outs of switches are {cut_out_words(new)} instead of {cut_out_words(old)}: "
        + " and ".join(words),
        thing="size of cut-outs",
        old=cut_out_words(old),
        new=cut_out_words(new),
        steps=(BenchStep("plate", f"cut the plate again, cut-outs of {cut_out_words(new)}"),),
    )


def _thickness(old: Any, new: Any) -> Change:
    return Change(
        kind="solder",
        slug="thickness-changed",
        text=f"a plate to print is {new:g} mm thick instead of {old:g} mm: "
        + more(new - old, "thicker", "thinner"),
        thing="thickness",
        old=f"{old:g} mm",
        new=f"{new:g} mm",
        steps=(BenchStep("plate", f"print the plate again, {new:g} mm thick"),),
    )


OF_FIELD: Mapping[str, Callable[[Any, Any], Change]] = {
    CUT_OUT: _cut_out,
    THICKNESS: _thickness,
}
"""What makes the change of a field of the plate."""
