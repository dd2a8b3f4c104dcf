"""What random fingers seldom do, as scripts for the tests' keyboards.

Engine and model are compared at each step; `tests/mutants` plays them too, as each finds a mistake
that nothing else there does. A script has `+KEY`, `-KEY`, milliseconds, `SCAN` and `ANEW`.
"""

from __future__ import annotations

from tests.firmware.scripts import Fingers
from tests.firmware.test_engine_and_oracle import Pair

ANEW, SCAN = "power is lost", "one more scan"
Script = tuple[str | int, ...]

TAP: Script = ("+Three", 10, "-Three", 20)
RARELY: dict[str, tuple[Script, ...]] = {
    "presses": (
        (*TAP, *TAP, *TAP, *TAP, 300),  # the third is the last, and the fourth a first one
        (*TAP, "+Three", 10, ANEW, "+Two", 10, "-Two", 400),  # a press that counts is forgotten
    ),
    "timed": (
        # what was to be let go as power was lost does not go before an undecided press
        ("+J", 20, "+First", 20, "-J", 6, SCAN, ANEW, "+A", 10, "+J", 30, "-J", 20, "-A", 30),
    ),
    "together": (
        # a second press is one although it would begin a set, now that a key of that is up
        ("+Shift", 60, "+N", 20, "-N", 10, "-Shift", 10, "+N", 5, "+Shift", 300, "-N", "-Shift", 9),
    ),
}
"""By the name of a keyboard in `BOARDS`."""


def play_rarely(pair: Pair, name: str) -> None:
    """Play what there is for a keyboard, each from the start."""
    for script in RARELY.get(name, ()):
        pair.restart()
        fingers = Fingers(pair)
        for step in script:
            if step == ANEW:
                pair.restart()
            elif step == SCAN:
                pair.step()
            else:
                fingers(step)
