"""The RP2040's pins and the matrix as a network; the emulator's short cuts against the long way."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from matrixgen.boards import Mounted
from matrixgen.model import Axis
from tests.emulators.keyboards import key_name, profile, square
from tests.emulators.rp2040.board import Rp2040Board, board
from tests.emulators.rp2040.builds import CONTROLLER, KINDS, built, compiled, tree_of
from tests.emulators.usb_host import UsbHost
from tests.reports import BOOT_BYTES, NOTHING_DOWN

SIZE = 3
PROFILE = profile(CONTROLLER)


def typed(mounted: Mounted, *keys: str) -> list[str]:
    """Return the keys that the host sees down while `keys` are closed."""
    with board(compiled(tree_of(mounted), "gcc"), mounted) as running:
        running.share = 0.15
        host = UsbHost(running)
        host.enumerate()
        return typed_on(running, host, SIZE, *keys)


def typed_on(running: Rp2040Board, host: UsbHost, size: int, *keys: str) -> list[str]:
    for key in keys:
        running.close_key(key)
    last = host.poll(8)[-1:]
    bits = int.from_bytes(last[0][BOOT_BYTES:], "little") if last else 0
    names = [key_name(row, column) for row in range(size) for column in range(size)]
    return [name for place, name in enumerate(names) if bits >> (4 + place) & 1]


def of_nine(drive: Axis = "column", bare: Sequence[str] = ()) -> Mounted:
    return square(SIZE, controller=CONTROLLER, drive=drive, without_diode=bare)


@pytest.mark.parametrize("drive", ["row", "column"])
def test_with_diodes_three_corners_of_a_rectangle_are_just_three_keys(drive: Axis) -> None:
    keys = ["K00", "K01", "K10"]
    assert typed(of_nine(drive), *keys) == keys


def test_without_diodes_three_corners_make_a_phantom_of_the_fourth() -> None:
    keys = ("K00", "K01", "K10")
    assert typed(of_nine(bare=[*keys, "K11"]), *keys) == ["K00", "K01", "K10", "K11"]


def test_a_reversed_diode_hides_its_key() -> None:
    mounted = square(SIZE, controller=CONTROLLER, reversed_keys=["K11"])
    assert typed(mounted, "K11", "K22") == ["K22"]


@pytest.mark.parametrize(("kind", "drive"), [("gcc", "row"), ("clang", "column")])
def test_each_of_64_keys_on_scattered_pins_is_itself(kind: str, drive: Axis) -> None:
    mounted = square(8, controller=CONTROLLER, drive=drive)
    with board(compiled(tree_of(mounted), kind), mounted) as running:
        running.share = 0.3
        host = UsbHost(running)
        host.enumerate()
        host.set_idle(0)
        for row in range(8):
            for column in range(8):
                key = key_name(row, column)
                assert typed_on(running, host, 8, key) == [key]
                running.open_key(key)
                assert host.poll(9)[-1:] == [NOTHING_DOWN]


def test_every_line_and_every_free_pin_is_pulled_up_and_no_other() -> None:
    with board(built("gcc"), square(2, controller=CONTROLLER)) as running:
        pins = running.rp2040.gpio
        free = {int(pin.name[4:]) for pin in PROFILE.free_pins}
        for pin in pins:
            expected = (True, False, True, 5) if pin.index in free else (False, True, True, 31)
            found = (pin.pullup_enabled, pin.pulldown_enabled, pin.input_enable)
            assert (*found, pin.function_select) == expected, pin.index


def test_no_two_lines_are_driven_at_once_and_none_is_left_driven() -> None:
    with board(built("gcc", 8), square(8, controller=CONTROLLER)) as running:
        low: set[int] = set()
        most = []

        def drive(pins: int, is_low: bool) -> None:
            (low.add if is_low else low.discard)(pins)
            most.append(len(low))

        running.rp2040.sio.on_drive = drive
        running.wait(1)
        assert max(most) == 1 and min(most) == 0


def drive_moments(chip: Rp2040Board, milliseconds: float) -> list[tuple[bool, int]]:
    """Return when a line went low or was let go, in cycles since power-on."""
    moments: list[tuple[bool, int]] = []
    chip.rp2040.sio.on_drive = lambda pins, low: moments.append((low, chip.cycles))
    chip.wait(milliseconds)
    chip.rp2040.sio.on_drive = lambda pins, low: None
    return moments


def test_skipping_the_delays_changes_no_cycle() -> None:
    flash = built("gcc", 8).flash
    skipped, not_skipped = (
        drive_moments(Rp2040Board(flash, every_cycle=every), 2) for every in (False, True)
    )
    start = max(skipped[0][1], not_skipped[0][1])
    one, other = ([m for m in moments if m[1] >= start] for moments in (skipped, not_skipped))
    count = min(len(one), len(other))
    assert count > 500
    assert one[:count] == other[:count]


@pytest.mark.parametrize("kind", KINDS)
def test_a_scan_waits_as_long_as_the_lines_need(kind: str) -> None:
    """Each line is low for 1 us at least, and 4 us pass from letting it go to the next one."""
    with board(built(kind, 8), square(8, controller=CONTROLLER)) as running:
        moments = drive_moments(running, 1)
    if not moments[0][0]:
        moments = moments[1:]
    gaps = [(moments[n][0], moments[n + 1][1] - moments[n][1]) for n in range(len(moments) - 1)]
    assert min(gap for low, gap in gaps if low) >= 125
    assert min(gap for low, gap in gaps if not low) >= 4 * 125
