"""Learning a wiring from a soldered board, each of whose keys is pressed once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from matrixgen.bench.dialogues.learn import Learned, Remark, learned
from matrixgen.bench.dialogues.learning import Learning
from matrixgen.bench.dialogues.turning import TurningKnobs
from matrixgen.bench.dialogues.turns import KnobSeen, odd_with
from matrixgen.bench.serial.press import ClosedPairs
from matrixgen.jobs.bench_session import Say, Session
from matrixgen.jobs.examine import examine_text
from matrixgen.jobs.learned_knobs import knob_pins_in_file, with_knobs_moved, with_new_knobs
from matrixgen.jobs.learned_text import ControllerInFile, learned_text
from matrixgen.model import Design
from matrixgen.record import Record, changed

TURN = "has its diode the wrong way round: with the others as they are it is never seen, so turn it"


class LearnReport(Record, kw_only=True):
    """What came of it.

    `rest` is what was closed while nothing was pressed: then nothing was asked. `missing` are the
    keys that were not pressed, and `not_turned` the knobs. `remarks` are on what was pressed or
    turned; `text` is the file's with what is known of the wiring, where anything is. All else stays
    as the file has it.
    """

    rest: ClosedPairs
    missing: tuple[str, ...] = ()
    not_turned: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()
    text: str | None = None


def learn(design: Design, session: Session, say: Say) -> LearnReport:
    """Hold the dialogue on a file's plate, and return what came of it.

    Raises `Failure` where the bench goes away or does not read a knob's pins, and
    `UnknownPin` as `learned_text` does.
    """
    if session.rest:
        return LearnReport(rest=session.rest)
    place = ControllerInFile(design, session.mounted.profile, session.place)
    learning = Learning([key.name.text for key in design.keyboard.keys])
    knobs = [knob.name.text for knob in design.keyboard.knobs]
    turning = session.turned(knobs, knob_pins_in_file(place), say)
    if not turning.is_stopped:
        session.hold(learning, lambda press: press, say)
    return report_of(place, learning, turning)


def report_of(
    place: ControllerInFile, learning: Learning, turning: TurningKnobs | None = None
) -> LearnReport:
    """Return what came of both dialogues. Raises `UnknownPin` as `learned_text` does."""
    seen = turning.seen if turning else {}
    whole = {knob: one.pins for knob, one in seen.items() if len(one.pins) == 2}
    moved = changed(place, design=with_knobs_moved(place, whole))
    found = learned(place.design.keyboard.keys, learning.presses, place.row_pins())
    text, remarks = moved.design.source.original, found.remarks
    has_lines = bool(found.rows or found.columns)
    if has_lines:
        text, remarks = _taken(moved, found)
    return LearnReport(
        rest=frozenset(),
        missing=tuple(learning.missing),
        not_turned=turning.missing if turning else (),
        remarks=(*remarks, *_of_knobs(place, seen)),
        text=with_new_knobs(place, text, whole) if has_lines or whole else None,
    )


def _of_knobs(place: ControllerInFile, seen: Mapping[str, KnobSeen]) -> Iterator[Remark]:
    """Yield what the joints of knobs need."""
    pins = knob_pins_in_file(place)
    for knob, one in seen.items():
        if odd := odd_with(knob, one, pins.get(knob, ())):
            yield Remark(knob, odd)


def _taken(place: ControllerInFile, found: Learned) -> tuple[str, tuple[Remark, ...]]:
    """Return the file's text, and what is to be said of keys.

    A diode that points the other way is written down only where `check` then has nothing against
    it; else it is to be turned, and the file has it as it will be.
    """
    text = learned_text(place, found)
    never_seen = _never_seen(place.design.source.path, text) & set(found.turned)
    if not never_seen:
        return text, found.remarks
    turned = tuple(key for key in found.turned if key not in never_seen)
    others = (one for one in found.remarks if one.key not in never_seen)
    to_turn = (Remark(key, TURN) for key in found.turned if key in never_seen)
    return learned_text(place, changed(found, turned=turned)), (*others, *to_turn)


def _never_seen(path: str, text: str) -> set[str]:
    """Return the keys that a keyboard of this text would never see, by their diodes."""
    findings = examine_text(path, text, Path(path).parent).findings
    return {key for one in findings if one.slug == "diode-against-scan" for key in one.about}
