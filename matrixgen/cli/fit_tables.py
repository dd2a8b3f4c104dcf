"""What `fit` finds, as tables for a terminal of 80 columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.circuit.planned import LEAD_METRE
from matrixgen.cli.boards import table
from matrixgen.cli.wrap import wrapped
from matrixgen.fit.controllers import Candidate, can_be_written
from matrixgen.fit.plan import LEAD_REACH_MM
from matrixgen.fit.shapes import Shape, Size, better_than
from matrixgen.jobs.fit import FitTables
from matrixgen.model.prose import counted

MEANINGS = {
    "fits": "as it is, without shared pins",
    "as R x C": "in this one of the matrices above",
    "shared pins": "they give up a second function; `matrixgen boards NAME` shows what that needs",
    "too few": "too few pins for any of these matrices",
}
"""What the words of a verdict mean."""


def report(path: str, tables: FitTables) -> Iterator[str]:
    """Yield the lines of the whole report: the matrices first, then the controllers."""
    yield f"{path}: {counted(tables.keys, 'key')}"
    yield ""
    yield from _matrices(tables)
    yield ""
    yield from _controllers(tables.candidates)


def _matrices(tables: FitTables) -> Iterator[str]:
    keys, shapes, expanded = tables.keys, tables.shapes, tables.expanded
    head = ("rows", "columns", "pins", "diodes", "jumpers", "wire", "")
    rows = [
        (
            *map(str, (*shape.size, shape.layout.lines, keys, shape.layout.jumpers)),
            f"{shape.layout.metres:.2f} m",
            _origin(shape, shapes),
        )
        for shape in shapes
    ]
    rows += [
        (
            *map(str, (*matrix.size, matrix.controller_lines, keys)),
            "",
            "",
            f"rows on {matrix.chips} x {matrix.expander.part}",
        )
        for matrix in expanded
    ]
    yield table([head, *rows], right=range(6))
    yield ""
    yield from wrapped(
        f"Wire: columns from key to key, {LEAD_METRE.value:g} m from each wire to the controller, "
        f"and jumpers. A jumper is a hop of a row of more than {LEAD_REACH_MM.value:g} mm; across "
        "a shorter one the lead of a diode reaches.",
    )
    kinds = " and ".join(
        f"the {matrix.expander.part}, a {matrix.expander.kind}," for matrix in expanded
    )
    yield from wrapped(
        f"Rows on {kinds} are listed only for comparison: matrixgen writes no firmware for them."
    )


def _origin(shape: Shape, shapes: Sequence[Shape]) -> str:
    """Return where a matrix is from, and what is better in everything that it needs."""
    better = better_than(shape, shapes)
    limit = "" if can_be_written(shape.size) else ", too many for a file"
    worse = f", worse than {_size(better.size)}" if better else ""
    return f"{shape.origin}{limit}{worse}"


def _size(size: Size) -> str:
    return f"{size[0]} x {size[1]}"


def _controllers(candidates: Sequence[Candidate]) -> Iterator[str]:
    notes = _Notes()
    rows = [
        (
            one.profile.name,
            str(one.pins),
            str(one.pins - one.free),
            _firmware(one),
            f"{_verdict(one)}{notes.marks(one)}",
        )
        for one in candidates
    ]
    head = ("controller", "usable", "shared", "firmware", "verdict")
    yield table([head, *rows], right=range(1, 3))
    yield ""
    yield from notes.listed()
    yield from wrapped(
        "Usable: pins that a wire may end on; shared: those of them that have a second function. "
        "Firmware: how far it has been tested, as in `matrixgen boards`; for `pins only` there is "
        "none yet, and matrixgen counts pins and checks the wiring."
    )
    verdicts = " ".join(row[-1] for row in rows)
    words = {word: word for word in MEANINGS} | {"as R x C": "fits as"}
    meant = [f"{word}: {text}" for word, text in MEANINGS.items() if words[word] in verdicts]
    yield from wrapped("; ".join(meant) + ".")


def _verdict(one: Candidate) -> str:
    """Return whether and how a keyboard fits, in at most 34 letters."""
    size = _size(one.size)
    free = _size(one.on_free_pins) if one.on_free_pins else ""
    if one.verdict == "too few pins":
        return f"too few: {size} needs {one.lines}"
    if one.verdict == "fits":
        return "fits"
    if one.verdict == "fits with second duties":
        return "fits with shared pins" + (f"; or {free}" if free else "")
    return f"fits as {free}" if one.on_free_pins else f"fits as {size} with shared pins"


def _firmware(one: Candidate) -> str:
    """Return how far its firmware has been tested, in the words of `boards`."""
    return (
        "not tested" if one.profile.port and one.profile.proof == "pins only" else one.profile.proof
    )


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
