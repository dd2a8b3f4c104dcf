"""Keys that are one action together, on each emulated chip: as the host build and the model.

One example has sets; a pad of many sets is played here: fingers that overlap, with pauses that keep
clear of all its times (`paced.py`).
"""

from __future__ import annotations

import random
from contextlib import AbstractContextManager
from pathlib import Path

import pytest

from matrixgen.behaviour import Machine
from matrixgen.boards import Mounted, builtin_profile
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.families import CompilerKind
from matrixgen.source import read_design
from tests.amounts import IS_LONG, amount, in_turn
from tests.emulators import images
from tests.emulators.avr import board as avr
from tests.emulators.rp2040 import board as rp2040
from tests.emulators.test_knobs import RIGHT, Desk, turned
from tests.examples.fingers import Sequence
from tests.examples.paced import is_clear, paced, with_steps
from tests.examples.shipped import COMPILERS, TURNS_A_MS, Board, soldered_to
from tests.examples.test_random_fingers import (
    OnChip,
    OnHost,
    OnPaper,
    certain,
    pins_of_knobs,
    play,
    times_of,
)
from tests.firmware.host_build import HostKeyboard, host_view, shared_library
from tests.reports import any_number

PAD = """\
keyboard "Sets"
  together within 45 ms

plate
  line A S D F
  line J K L M

wiring
  drive rows, sense columns
  diodes 1N4148, band toward rows
  row    r0  A to F
  row    r1  J to M
  column c0  A J
  column c1  S K
  column c2  D L
  column c3  F M
  knob jog
  knob dial with 2 states a step

layer base
  F = tap F, hold Shift
  M = hold layer up
  together J K = Esc
  together J K L within 58 ms = Ctrl+Tab
  together A S = tap Enter, hold layer up
  together D F within 32 ms = once Shift
  together A S D F = latch layer up
  jog.left  = LeftArrow  jog.right  = RightArrow
  dial.left = PageUp     dial.right = PageDown

layer up
  J = 1
  together A S within 32 ms = 2
  together K L = VolumeUp
  jog.left = Ctrl+LeftArrow  dial.right = VolumeUp
"""
SEQUENCES = {
    "atmega32u4": amount("MATRIXGEN_SEQUENCES", suite=8, long=2000),
    "at90usb162": amount("MATRIXGEN_SEQUENCES", suite=8, long=2000),
    "rp2040": amount("MATRIXGEN_SEQUENCES", suite=4, long=500),
}
CHIPS = [chip for chip in SEQUENCES if IS_LONG or chip != "at90usb162"]
FINGERS = 4


def on_board(chip: str, kind: CompilerKind, mounted: Mounted) -> AbstractContextManager[Board]:
    made = images.compiled(
        firmware_tree(firmware_view(mounted, "sets.keys")), mounted.profile, kind
    )
    return rp2040.board(made, mounted) if chip == "rp2040" else avr.board(made, mounted)


@pytest.mark.parametrize(("chip", "kind"), in_turn(CHIPS, COMPILERS))
def test_chip_host_build_and_model_agree_on_sets(
    chip: str, kind: CompilerKind, tmp_path: Path
) -> None:
    design, findings = read_design("sets.keys", PAD)
    profile = builtin_profile(chip)
    assert design is not None and profile is not None, findings
    mounted = soldered_to(design, profile)
    keyboard, view = mounted.keyboard, host_view(mounted.keyboard)
    within = {one.within_ms for layer in keyboard.layers for one in layer.together}
    assert all(map(is_clear, {*times_of(keyboard), *within}))
    names = [knob.name.text for knob in keyboard.knobs]
    on_host = OnHost(HostKeyboard(shared_library(keyboard, tmp_path), view), names)
    on_paper, chance = OnPaper(Machine(keyboard)), random.Random(chip)
    turned = () if chip == "rp2040" else keyboard.knobs

    def draw() -> Sequence:
        keys = [key.name.text for key in keyboard.keys]
        return with_steps(chance, paced(chance, keys, FINGERS), turned)

    with on_board(chip, kind, mounted) as board:
        if chip == "rp2040":
            _, turn = board.scan_cycles(mounted)  # type: ignore[attr-defined]
            board.share = min(1, TURNS_A_MS * turn / board.cycles_per_ms)  # type: ignore[attr-defined]
        on_chip = OnChip(board, bool(view.media.keys), pins_of_knobs(mounted))
        for number in range(SEQUENCES[chip]):
            fingers = certain(on_paper, draw) if turned else draw()
            reports = play(on_chip, fingers)
            assert reports == play(on_host, fingers), f"host build, sequence {number}: {fingers}"
            assert reports == play(on_paper, fingers), f"model, sequence {number}: {fingers}"


def test_a_knob_that_turns_while_keys_are_undecided_loses_no_step() -> None:
    """At 600 steps a second; until it is known which set they are, a turn takes the chip longer."""
    design, findings = read_design("sets.keys", PAD)
    profile = builtin_profile("atmega32u4")
    assert design is not None and profile is not None, findings
    mounted = soldered_to(design, profile)
    with on_board("atmega32u4", "gcc", mounted) as board:
        on_chip = OnChip(board, True, pins_of_knobs(mounted))
        desk = Desk(board, on_chip.host, on_chip.pins)  # type: ignore[arg-type]
        for key in "ASD":
            board.close_key(key)
        on_chip.host.poll_both(2)
        desk.play("jog", turned(4, 9, 1e6 / 600 / 4, back=2))
        for key in "ASD":
            board.open_key(key)
        reports, _ = on_chip.host.poll_both(120)
    steps = [report for report in reports if any_number(0, RIGHT) == report]
    assert len(steps) == 7
