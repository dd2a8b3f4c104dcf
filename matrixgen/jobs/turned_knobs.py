"""Knobs that are turned at the bench, before the keys: for `learn` and `probe` alike."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.bench.dialogues.turning import TurningKnobs
from matrixgen.jobs.bench_session import Say, Session
from matrixgen.jobs.learned_knobs import KnobPins


def turned_knobs(
    session: Session, knobs: Sequence[str], in_file: KnobPins, say: Say
) -> TurningKnobs:
    """Hold the dialogue about some knobs, of which the file has some on pins.

    Raises `Failure` where the bench goes away, or does not read one of those pins.
    """
    session.must_read((pin for both in in_file.values() for pin in both), "a knob")
    turning = TurningKnobs(knobs, in_file, session.on_ground)
    if knobs:
        session.turn(turning, say)
    return turning
