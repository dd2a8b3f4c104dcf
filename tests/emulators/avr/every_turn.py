"""Turns that are left out change nothing: `python -m tests.emulators.avr.every_turn [N]`.

`idle.c` leaves out the turns of the main loop in which nothing can happen. Two keyboards get the
same fingers and the same questions at the same cycles, one of them without that; after each of N
changes (1,500 if it is not said), on each build, both must have given the same reports and be at
the same cycle and the same instruction.
"""

from __future__ import annotations

import argparse
import random
import sys
import time
from collections.abc import Iterator

from matrixgen.families import CompilerKind
from tests.emulators.avr.board import AvrBoard, board
from tests.emulators.avr.conftest import BUILDS, built
from tests.emulators.keyboards import square
from tests.emulators.usb_host import UsbHost

KEYS = ("K00", "K01", "K10", "K11")
LONGEST_MS = 14
"""From one change to the next: some shorter than a release's debounce, some longer."""

IDLE_MS = 52
"""So that reports come by time alone, too."""

State = tuple[bytes | None, int, int]


def fingers(chance: random.Random, changes: int) -> Iterator[tuple[str, int]]:
    """Return which key changes, and how many cycles pass until the host asks."""
    for _ in range(changes):
        yield chance.choice(KEYS), chance.randrange(1, LONGEST_MS * 16_000)


def ready(running: AvrBoard) -> AvrBoard:
    host = UsbHost(running)
    host.enumerate()
    host.set_idle(IDLE_MS)
    return running


def change(running: AvrBoard, key: str, closed: bool, cycles: int) -> State:
    (running.close_key if closed else running.open_key)(key)
    running.run(cycles)
    return running.in_(1), running.cycles, running.pc


def first_difference(chip: str, kind: CompilerKind, changes: int) -> tuple[int | None, int]:
    """Return the number of the change after which two boards differ, and the turns left out."""
    mounted, image = square(2, controller=chip), built(chip, kind)
    closed = dict.fromkeys(KEYS, False)
    with board(image, mounted) as quick, board(image, mounted) as whole:
        whole.leave_nothing_out()
        ready(quick), ready(whole)
        for number, (key, cycles) in enumerate(fingers(random.Random(f"{chip} {kind}"), changes)):
            closed[key] = not closed[key]
            one, other = (change(each, key, closed[key], cycles) for each in (quick, whole))
            if one != other:
                return number, quick.left_out
        assert whole.left_out == 0
        return None, quick.left_out


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.emulators.avr.every_turn")
    parser.add_argument("changes", nargs="?", type=int, default=1500)
    changes = parser.parse_args().changes
    differ = 0
    for chip, kind in BUILDS:
        begin = time.perf_counter()
        number, left_out = first_difference(chip, kind, changes)
        differ += number is not None
        found = "no difference" if number is None else f"they differ at change {number}"
        seconds = time.perf_counter() - begin
        print(
            f"{chip} {kind}: {changes} changes, {left_out} turns left out, {seconds:.0f} s: {found}"
        )
    return min(differ, 1)


if __name__ == "__main__":
    sys.exit(main())
