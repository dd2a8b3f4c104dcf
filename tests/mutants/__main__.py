"""Mistakes planted in the firmware: `python -m tests.mutants [--seconds N] [--ports N] [WORD...]`.

A script changes the C in one place at a time (`changes.py`). A mutant that is no C, or the
same machine code as before at -O2, is left out. Each other one is built for this computer with the
tests' keyboards; it is killed if it answers otherwise than the model does (`tape.py`), fails one of
the suite's tests of single promises (`direct.py`), crashes or hangs. What survives is printed,
unless `equivalent.py` says why it is no mistake.

Of each port, as many mutants are tried as `--ports` says, 60 if it says nothing (`ports_trial.py`).

N is about how long the hands play on each keyboard; 4 if it is not said. With words, only mutants
whose file, function or line has one of them are tried.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from matrixgen.model import Keyboard
from tests.firmware.host_build import HostKeyboard
from tests.firmware.lights import lights_pad
from tests.firmware.pads import (
    kept_pad,
    knob_pad,
    loader_pad,
    lone_pointer,
    media_pad,
    modifier_pad,
    one_media_key,
    pairs_pad,
    plain_knob_pad,
    pointer_pad,
    press_pad,
    single_pad,
    small_pad,
    square_board,
    timed_pad,
    together_pad,
    turn_pad,
    typist_pad,
)
from tests.firmware.test_host_usb import UsbKeyboard
from tests.firmware.test_media import MediaPad
from tests.firmware.test_media_usb import MediaKeyboard
from tests.firmware.test_pointer import PointerPad
from tests.mutants.changes import Mutant, engine_mutants
from tests.mutants.direct import first_failure
from tests.mutants.equivalent import EQUIVALENT
from tests.mutants.ports import PORTS
from tests.mutants.ports_trial import LEAST as LEAST_OF_PORTS
from tests.mutants.ports_trial import try_port
from tests.mutants.tape import Entry, first_difference, record
from tests.mutants.trial import is_killed
from tests.mutants.workshop import TRAPS, Workshop

PADS: dict[str, Callable[[], Keyboard]] = {
    "timed": timed_pad,
    "single": single_pad,
    "media": media_pad,
    "kept": kept_pad,
    "loader": loader_pad,
    "small": small_pad,
    "modifiers": modifier_pad,
    "presses": press_pad,
    "knobs": knob_pad,
    "lights": lights_pad,
    "lights usb": lights_pad,
    "knobs alone": plain_knob_pad,
    "turns": turn_pad,
    "typist": typist_pad,
    "together": together_pad,
    "pairs": pairs_pad,
    "pointer": pointer_pad,
    "lone pointer": lone_pointer,
    "pointer usb": pointer_pad,
    "square": square_board,
    "usb": small_pad,
    "media usb": media_pad,
    "one media key": partial(one_media_key, 0x0C, 0xE9),
    "one system key": partial(one_media_key, 0x01, 0x82),
}
KINDS: dict[str, type[HostKeyboard]] = {
    "usb": UsbKeyboard,
    "lights usb": UsbKeyboard,
    "media": MediaPad,
    "media usb": MediaKeyboard,
    "pointer": PointerPad,
    "pointer usb": MediaKeyboard,
    "one media key": MediaKeyboard,
    "one system key": MediaKeyboard,
}
"""Of a keyboard that is more than the engine, or whose tests ask for more."""
TURNS_A_SECOND = 6_000
LEAST = 0.99
"""The share that has to be killed."""


@dataclass(frozen=True)
class Bench:
    """A keyboard to try mutants on, and what was played on it."""

    name: str
    workshop: Workshop
    tape: list[Entry]

    def differs(self, library: Path, still: Callable[[], None]) -> bool:
        keyboard: HostKeyboard = self.workshop.open(library)
        if first_difference(self.tape, keyboard, still) is not None:
            return True
        return first_failure(self.name, keyboard, still) is not None

    def kills(self, library: Path) -> bool:
        return is_killed(partial(self.differs, library))


def benches(folder: Path, seconds: float) -> list[Bench]:
    found = []
    for name, pad in PADS.items():
        kind = KINDS.get(name, HostKeyboard)
        workshop = Workshop(pad(), folder / name, kind)
        plays = name not in ("square", "kept") and not issubclass(kind, UsbKeyboard)
        turns = int(seconds * TURNS_A_SECOND) if plays else 0
        found.append(Bench(name, workshop, record(workshop, turns, name)))
        assert workshop.original and not found[-1].kills(workshop.original), name
    return found


def verdict(mutant: Mutant, among: list[Bench]) -> bool | None:
    """Whether it is killed; None if there is nothing to kill."""
    differing = []
    for bench in among:
        library = bench.workshop.built(mutant)
        if library is not None:
            differing.append(bench)
            if bench.kills(library):
                return True
    for bench in differing:
        library = bench.workshop.built(mutant, *TRAPS)
        if library is not None and bench.kills(library):
            return True
    return False if differing else None


def show(mutant: Mutant) -> None:
    """Print a survivor as the table would have it."""
    print(f"{mutant.file}: {mutant.function}: line {mutant.line}")
    print(f"    {mutant.before}\n    {mutant.after}", flush=True)


def try_all(mutants: list[Mutant], among: list[Bench]) -> float:
    """Try each, print what survives, and return the share that is killed."""
    counts = {True: 0, False: 0, None: 0}
    known, begin = 0, time.perf_counter()
    for mutant in mutants:
        if mutant.key in EQUIVALENT:
            known += 1
            continue
        killed = verdict(mutant, among)
        counts[killed] += 1
        if killed is False:
            show(mutant)
    tried = counts[True] + counts[False]
    share = counts[True] / tried if tried else 1.0
    seconds = time.perf_counter() - begin
    print(f"{counts[True]} of {tried} killed, {share:.1%}; {known} are equivalent, by the table;")
    print(f"{counts[None]} more are no C or the same machine code; {seconds:.0f} s")
    return share


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.mutants")
    parser.add_argument("--seconds", type=float, default=4.0)
    parser.add_argument("--ports", type=int, default=60)
    parser.add_argument("words", nargs="*")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        among = benches(Path(name), given.seconds)
        mutants = list(engine_mutants())
        for stale in EQUIVALENT.keys() - {mutant.key for mutant in mutants}:
            print(f"no mutant is what the table calls equivalent: {stale}")
        wanted = [
            mutant
            for mutant in mutants
            if not given.words or any(word in " ".join(mutant.key) for word in given.words)
        ]
        share = try_all(wanted, among)
    ports = [try_port(port, given.words, given.ports) for port in PORTS if given.ports]
    return 0 if share >= LEAST and all(one >= LEAST_OF_PORTS for one in ports) else 1


if __name__ == "__main__":
    sys.exit(main())
