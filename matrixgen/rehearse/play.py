"""A script from its first step to its last effect."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from matrixgen.model import Keyboard
from matrixgen.record import changed
from matrixgen.rehearse.happening import Ends, Happening, TextShown
from matrixgen.rehearse.plan import Planner
from matrixgen.rehearse.rehearsal import Rehearsal
from matrixgen.rehearse.script import Step


def length_ms(keyboard: Keyboard, steps: Iterable[Step]) -> int:
    """Return how long a script takes."""
    planner = Planner(keyboard)
    for _ in planner.moves(steps):
        pass
    return planner.at_ms


def play(
    keyboard: Keyboard, steps: Sequence[Step], each_ms: Callable[[], object] = lambda: None
) -> Iterator[Happening]:
    """Yield all that happens; `each_ms` is called for each millisecond.

    The clock stops after the last step, once releases have counted and reports have left: a press
    that is still undecided then stays so.
    """
    planner, rehearsal = Planner(keyboard), Rehearsal(keyboard)
    rehearsal.plan(planner.moves(steps))
    found: list[Happening] = []
    last_ms = planner.at_ms
    while rehearsal.now_ms <= planner.at_ms or found or not rehearsal.is_settled:
        found = rehearsal.tick()
        yield from found
        each_ms()
        if rehearsal.has_ended:
            yield from _text(rehearsal, last_ms)
            return
        last_ms = max(last_ms, *(one.at_ms for one in found), 0)
    if (moved := rehearsal.movement()) is not None:
        yield moved
        last_ms = max(last_ms, moved.at_ms)
    yield from _text(rehearsal, last_ms)
    yield _end(rehearsal, last_ms)


def _text(rehearsal: Rehearsal, at_ms: int) -> Iterator[TextShown]:
    if (text := rehearsal.text()) is not None:
        yield changed(text, at_ms=at_ms)


def _end(rehearsal: Rehearsal, at_ms: int) -> Ends:
    machine = rehearsal.machine
    down = tuple(key for key in machine.scanned if key in machine.closed)
    event = machine.undecided()
    undecided = (event.key,) if event else ()
    return Ends(at_ms, down, undecided)
