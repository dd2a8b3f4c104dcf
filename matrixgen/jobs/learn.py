"""Learning a wiring from a soldered board, each of whose keys is pressed once."""

from __future__ import annotations

from matrixgen.bench.learn import Remark, learned
from matrixgen.bench.learning import Learning
from matrixgen.bench.press import ClosedPairs
from matrixgen.jobs.bench_session import Say, Session
from matrixgen.jobs.learned_text import ControllerInFile, learned_text
from matrixgen.model import Design
from matrixgen.record import Record


class LearnReport(Record, kw_only=True):
    """What came of it.

    `rest` is what was closed while nothing was pressed: then nothing was asked. `missing` are the
    keys that were not pressed. `remarks` are on what was pressed; `text` is the file's with the
    wiring, where that is right and all there.
    """

    rest: ClosedPairs
    missing: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()
    text: str | None = None


def learn(design: Design, session: Session, say: Say) -> LearnReport:
    """Hold the dialogue on a file's plate, and return what came of it.

    Raises `BenchProblem` where the bench goes away, and `UnknownPin` as `learned_text` does.
    """
    if session.rest:
        return LearnReport(rest=session.rest)
    keys = design.keyboard.keys
    learning = Learning([key.name.text for key in keys])
    session.hold(learning, lambda press: press, say)
    if learning.missing:
        return LearnReport(rest=session.rest, missing=tuple(learning.missing))
    place = ControllerInFile(design, session.mounted.profile, session.place)
    found = learned(keys, learning.presses, place.row_pins())
    text = learned_text(place, found) if found.is_right else None
    return LearnReport(rest=session.rest, remarks=tuple(found.remarks), text=text)
