"""Into the boot ROM's drive: by keys held down together, and by a key whose action it is.

That the ROM's own device (2E8A:0003) is on the bus afterwards is seen as a host sees it.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator

import pytest

from matrixgen.families import CompilerKind
from matrixgen.toolchain import Image
from tests.emulators.boot_loader_keys import HOLD, LAYER_KEY, LOADER_KEY, keyboard
from tests.emulators.rp2040.board import Rp2040Board, board
from tests.emulators.rp2040.builds import CONTROLLER, KINDS, SHARE, compiled, tree_of
from tests.emulators.rp2040.test_boot import BOOT_ROM_DRIVE, KEYBOARD, identity
from tests.emulators.usb_host import UsbHost

pytestmark = pytest.mark.compilers_in_turn
ROM_MS = 100
"""What the boot ROM needs to show its device."""


@functools.cache
def asked_for(kind: CompilerKind) -> Image:
    return compiled(tree_of(keyboard(CONTROLLER)), kind)


@pytest.fixture(params=KINDS)
def chip(request: pytest.FixtureRequest) -> Iterator[Rp2040Board]:
    with board(asked_for(request.param), keyboard(CONTROLLER)) as running:
        running.share = SHARE
        UsbHost(running).enumerate()
        yield running


def device(chip: Rp2040Board) -> bytes:
    """Return the ids of whatever is on the bus now."""
    chip.share = 1
    chip.wait(ROM_MS)
    return identity(chip)


def press(chip: Rp2040Board, *keys: str) -> None:
    for key in keys:
        chip.close_key(key)


def test_all_keys_together_start_the_drive_after_a_second(chip: Rp2040Board) -> None:
    press(chip, *HOLD)
    chip.wait(1030)
    assert device(chip) == BOOT_ROM_DRIVE


def test_before_the_second_is_over_nothing_happens(chip: Rp2040Board) -> None:
    press(chip, *HOLD)
    chip.wait(950)
    for key in HOLD:
        chip.open_key(key)
    chip.wait(300)
    assert device(chip) == KEYBOARD


@pytest.mark.few(1)
@pytest.mark.parametrize("missing", HOLD)
def test_with_one_key_missing_nothing_happens(chip: Rp2040Board, missing: str) -> None:
    press(chip, *(key for key in HOLD if key != missing))
    chip.wait(1200)
    assert device(chip) == KEYBOARD


def test_the_keys_do_it_while_the_bus_sleeps_too(chip: Rp2040Board) -> None:
    chip.suspend()
    chip.wait(50)
    press(chip, *HOLD)
    chip.wait(1100)
    assert device(chip) == BOOT_ROM_DRIVE


def test_a_key_with_the_action_starts_the_drive_on_its_layer_only(chip: Rp2040Board) -> None:
    press(chip, LOADER_KEY)
    chip.wait(20)
    chip.open_key(LOADER_KEY)
    chip.wait(20)
    assert chip.attached == 1
    press(chip, LAYER_KEY)
    chip.wait(20)
    press(chip, LOADER_KEY)
    chip.wait(20)
    assert device(chip) == BOOT_ROM_DRIVE
