"""A verdict in words: what is wrong, and what to look at."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.bench.faults.board import Board
from matrixgen.bench.faults.effect import worlds_of
from matrixgen.bench.faults.explanation import Explanation
from matrixgen.bench.faults.fault import RARITY, Fault
from matrixgen.bench.faults.fault_words import advice_on, says_of
from matrixgen.model.prose import listed
from matrixgen.record import Record


class ExplanationPart(Record):
    """One fault of an explanation, or several that look alike: what is wrong, what to do about it.

    `faults` are those that look alike, the likeliest first.
    """

    says: str
    advice: str
    faults: tuple[Fault, ...]


def parts_of(board: Board, explanation: Explanation) -> Iterator[ExplanationPart]:
    """Yield each fault of an explanation in words."""
    worlds = list(worlds_of(explanation.effects))
    for number, effect in enumerate(explanation.effects):
        faults = list(dict.fromkeys(world[number] for world in worlds))
        faults.sort(key=lambda fault: RARITY[fault.kind])
        is_open = effect.what in ("open", "half open") and len(faults) > 1
        yield _open(faults) if is_open else _alike(faults)
    for one, other in explanation.exchanges:
        keys = (board.keys[one], board.keys[other])
        yield _alike([Fault(kind="keys exchanged", keys=keys)])


def _alike(faults: list[Fault]) -> ExplanationPart:
    return ExplanationPart(says_of(faults[0]), advice_on(faults[0]), tuple(faults))


def _open(faults: list[Fault]) -> ExplanationPart:
    """Return what is said of a key that never conducts: no pin can tell which of it is open."""
    key = next(one.keys[0] for one in faults if one.kind != "hop")
    joints = [f"its joint on `{one.lines[0]}`" for one in faults if one.kind == "joint"]
    hops = [
        f"the wire of `{one.lines[0]}` between `{one.keys[0]}` and `{one.keys[1]}`"
        for one in faults
        if one.kind == "hop"
    ]
    diode = ["its diode"] if any(one.kind == "diode missing" for one in faults) else []
    switch = ["its switch"] if any(one.kind == "switch dead" for one in faults) else []
    what = listed([*joints, *hops, *diode, *switch], "or")
    advice = (
        "press the key and measure along it with a meter, from wire to wire: heat the joint that "
        "is open again"
    )
    return ExplanationPart(f"`{key}` is open: {what}", advice, tuple(faults))
