"""A verdict in words: what is wrong, and what to look at."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.bench.board import Board
from matrixgen.bench.diagnose import Explanation
from matrixgen.bench.effect import FaultEffect
from matrixgen.bench.fault import ADVICE, RARITY, Fault
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
    for effect in explanation.effects:
        yield _open(effect) if effect.what == "open" else _single(effect.faults[0])
    for one, other in explanation.exchanges:
        keys = (board.keys[one], board.keys[other])
        yield _single(Fault(kind="keys exchanged", keys=keys))


def _single(fault: Fault) -> ExplanationPart:
    return ExplanationPart(fault.says, ADVICE[fault.kind], (fault,))


def _open(effect: FaultEffect) -> ExplanationPart:
    """Return what is said of a key that never conducts: no pin can tell which of it is open."""
    faults = sorted(effect.faults, key=lambda fault: RARITY[fault.kind])
    key = faults[0].keys[0]
    joints = [f"its joint on `{one.lines[0]}`" for one in faults if one.kind == "joint"]
    hops = [
        f"the wire of `{one.lines[0]}` between `{one.keys[0]}` and `{one.keys[1]}`"
        for one in faults
        if one.kind == "hop"
    ]
    diode = ["its diode"] if any(one.kind == "diode missing" for one in faults) else []
    what = listed([*joints, *hops, *diode, "its switch"], "or")
    advice = (
        "press the key and measure along it with a meter, from wire to wire: heat the joint that "
        "is open again"
    )
    return ExplanationPart(f"`{key}` is open: {what}", advice, tuple(faults))
