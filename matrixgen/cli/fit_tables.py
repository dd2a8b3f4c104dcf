"""What `fit` finds, as tables for a terminal of 80 columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.circuit.planned import LEAD_METRE
from matrixgen.cli.boards import table
from matrixgen.cli.wrap import wrapped
from matrixgen.fit.controllers import Candidate, Verdict
from matrixgen.fit.helpers import Lent
from matrixgen.fit.plan import LEAD_REACH_MM
from matrixgen.fit.shapes import Shape
from matrixgen.model.prose import counted

VERDICTS: dict[Verdict, tuple[str, str]] = {
    "fits": ("fits", "on free pins alone"),
    "fits with second duties": ("duties", "fits, if pins give up a second duty"),
    "fits if folded": ("folded", "fits only in the smaller matrix of its line"),
    "too few pins": ("too few", "has too few pins for any of these matrices"),
}
"""Each verdict in a word, and what the word means."""


def report(
    path: str,
    keys: int,
    shapes: Sequence[Shape],
    candidates: Sequence[Candidate],
    helpers: Sequence[Lent],
) -> Iterator[str]:
    """Yield the lines of the whole report: the matrices first, then the controllers."""
    yield f"{path}: {counted(keys, 'key')}"
    yield ""
    yield from _matrices(keys, shapes, helpers)
    yield ""
    yield from _controllers(candidates)


def _matrices(keys: int, shapes: Sequence[Shape], helpers: Sequence[Lent]) -> Iterator[str]:
    head = ("rows", "columns", "pins", "diodes", "jumpers", "wire", "")
    rows = [
        (
            *map(str, (*shape.size, shape.layout.lines, keys, shape.layout.jumpers)),
            f"{shape.layout.metres:.2f} m",
            shape.origin,
        )
        for shape in shapes
    ]
    rows += [
        (
            *map(str, (*lent.size, lent.controller_lines, keys)),
            "",
            "",
            f"rows on {lent.chips} x {lent.helper.part}",
        )
        for lent in helpers
    ]
    yield table([head, *rows], right=range(6))
    yield ""
    yield from wrapped(
        f"Wire: columns from key to key, {LEAD_METRE.value:g} m from each line to the controller, "
        f"and jumpers. A jumper is a hop of a row of more than {LEAD_REACH_MM.value:g} mm; across "
        "a shorter one a diode's own lead reaches.",
    )
    kinds = " and ".join(f"the {lent.helper.part}, a {lent.helper.kind}," for lent in helpers)
    yield from wrapped(
        f"Rows on {kinds} are here for comparison alone: they are not built, which is to say that "
        "matrixgen writes no firmware for them."
    )


def _controllers(candidates: Sequence[Candidate]) -> Iterator[str]:
    head = (
        "controller",
        "rows",
        "columns",
        "pins",
        "usable",
        "free",
        "spare",
        "supply",
        "firmware",
    )
    notes = _Notes()
    rows = [
        (
            one.profile.name,
            f"{one.size[0]} x {one.size[1]}",
            str(one.lines),
            str(one.pins),
            str(one.free),
            str(one.spare),
            f"{one.profile.supply_volts:g}",
            _firmware(one),
            f"{_verdict(one)}{notes.marks(one)}",
        )
        for one in candidates
    ]
    head = ("controller", "matrix", "pins", "usable", "free", "spare", "volt", "firmware", "")
    yield table([head, *rows], right=range(1, 7))
    yield ""
    yield from notes.listed()
    yield from wrapped(
        "Pins: what the matrix needs. Usable: what a line may end on; free: those of them that "
        "give up no second duty. Firmware: `matrixgen boards` says how far it was tried; for "
        "`pins only` there is none yet, and matrixgen counts pins and checks the wiring."
    )
    told = {_verdict(one): VERDICTS[one.verdict][1] for one in candidates}
    yield from wrapped("; ".join(f"{word}: {meaning}" for word, meaning in told.items()) + ".")


def _verdict(one: Candidate) -> str:
    return VERDICTS[one.verdict][0]


def _firmware(one: Candidate) -> str:
    return "builds" if one.profile.port else "pins only"


class _Notes:
    """What stands in the way, numbered as it is met: one number for each kind."""

    def __init__(self) -> None:
        self._found: dict[str, list[str]] = {}

    def marks(self, one: Candidate) -> str:
        for found in one.obstacles:
            self._found.setdefault(found.slug, []).append(found.message)
        slugs = list(self._found)
        numbers = sorted({slugs.index(found.slug) + 1 for found in one.obstacles})
        return f" [{','.join(map(str, numbers))}]" if numbers else ""

    def listed(self) -> Iterator[str]:
        for number, (slug, messages) in enumerate(self._found.items(), start=1):
            others = len(messages) - 1
            more = f"; {others} more like this" if others else ""
            yield from wrapped(f"{slug}: {messages[0]}{more}", f"[{number}] ")
        if self._found:
            yield ""
