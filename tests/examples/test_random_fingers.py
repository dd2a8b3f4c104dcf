"""Emulated chip, host build and Python model give the same reports for the same fingers.

Random sequences of several keys, press for press. The suite plays 200 on each example, 80 on the
RP2040, whose emulator is slower, of one compiler's image; the long run 5,000 and
1,000, on the images of both. Layers stay latched from one sequence to the next, in all three.

Where keys ask how long ago something was, all changes keep clear of the times that are asked for
(`paced.py`).
"""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from matrixgen.behaviour import Machine
from matrixgen.families import CompilerKind
from matrixgen.model import Keyboard, TapHold
from tests.amounts import amount
from tests.emulators.usb_host import UsbHost
from tests.examples.fingers import Change, Sequence, sequence
from tests.examples.paced import is_clear, paced
from tests.examples.shipped import BUILDS, Board, board, example
from tests.firmware.host_build import HostKeyboard, host_view, shared_library

SEQUENCES = {
    "avr": amount("MATRIXGEN_SEQUENCES", suite=200, long=5000),
    "rp2040": amount("MATRIXGEN_SEQUENCES", suite=80, long=1000),
}
FINGERS = {"avr": 3, "rp2040": 2}
"""How many at once where there are pauses: an emulator's time is dear."""

SCANS_A_MS = 3


class OnChip:
    def __init__(self, chip: Board, has_media: bool) -> None:
        self.chip = chip
        self.has_media = has_media
        self.host = UsbHost(chip)
        self.host.enumerate()
        self.host.set_idle(0)
        self.host.poll_both(5)

    def change(self, change: Change) -> None:
        (self.chip.close_key if change.closed else self.chip.open_key)(change.key)

    def millisecond(self) -> list[bytes]:
        keyboard, media = self.host.poll_both(1) if self.has_media else (self.host.poll(1), [])
        return keyboard + media


class OnHost:
    def __init__(self, engine: HostKeyboard) -> None:
        self.engine = engine

    def change(self, change: Change) -> None:
        self.engine.close(change.key, change.closed)

    def millisecond(self) -> list[bytes]:
        reports = []
        for _ in range(SCANS_A_MS):
            self.engine.step()
            reports += [self.engine.take(), self.engine.take_media()]
        self.engine.advance(1)
        return [report for report in reports if report is not None]


class OnPaper:
    """The model; where a scan has told nothing, the next one at the same moment does neither."""

    def __init__(self, oracle: Machine) -> None:
        self.oracle = oracle

    def change(self, change: Change) -> None:
        (self.oracle.closed.add if change.closed else self.oracle.closed.discard)(change.key)

    def millisecond(self) -> list[bytes]:
        reports: list[bytes] = []
        for _ in range(SCANS_A_MS):
            self.oracle.step()
            told = [self.oracle.take(), self.oracle.take_media()]
            if told == [None, None]:
                break
            reports += [report for report in told if report is not None]
        self.oracle.now_ms += 1
        return reports


def play(at: OnChip | OnHost | OnPaper, fingers: Sequence) -> list[bytes]:
    reports: list[bytes] = []
    moment = 0
    for change in fingers.changes:
        for _ in range(change.at_ms - moment):
            reports += at.millisecond()
        moment = change.at_ms
        at.change(change)
    for _ in range(fingers.ends_ms - moment):
        reports += at.millisecond()
    return reports


def times_of(keyboard: Keyboard) -> set[int]:
    """The times that a keyboard's keys ask for, in ms."""
    held = [action for action in keyboard.every_action if isinstance(action, TapHold)]
    once = {int(keyboard.once_ms.value)} if keyboard.once_ms else set()
    return once | {one.after_ms for one in held} | {one.roll_ms for one in held} - {0}


@pytest.mark.parametrize(("name", "family", "kind"), BUILDS)
def test_chip_host_build_and_model_agree_press_for_press(
    name: str, family: str, kind: CompilerKind, tmp_path: Path
) -> None:
    shipped = example(name, family)
    view = host_view(shipped.keyboard)
    on_host = OnHost(HostKeyboard(shared_library(shipped.keyboard, tmp_path), view))
    on_paper = OnPaper(Machine(shipped.keyboard))
    chance = random.Random(f"{name} {kind}")
    debounce = int(shipped.keyboard.debounce_ms.value)
    sequences = SEQUENCES[family]
    told = 0
    times = times_of(shipped.keyboard)
    assert all(map(is_clear, times)), f"{name}: sequences cannot keep clear of {times}"
    with board(name, kind, family) as chip:
        on_chip = OnChip(chip, has_media=bool(view.media.keys))
        for number in range(sequences):
            keys = list(view.key_names)
            fingers = (
                paced(chance, keys, FINGERS[family]) if times else sequence(chance, keys, debounce)
            )
            reports = play(on_chip, fingers)
            assert reports == play(on_host, fingers), f"host build, sequence {number}: {fingers}"
            assert reports == play(on_paper, fingers), f"model, sequence {number}: {fingers}"
            assert not on_paper.oracle.held, f"sequence {number} leaves a key down"
            told += len(reports)
    assert told > sequences, "hardly any report was compared"
