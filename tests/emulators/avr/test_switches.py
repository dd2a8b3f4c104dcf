"""The switches of the harness are a network of directed paths, as on the bench."""

from __future__ import annotations

import pytest

from matrixgen.boards import Mounted
from matrixgen.model import Axis
from tests.emulators.avr.board import board
from tests.emulators.images import image_of
from tests.emulators.keyboards import key_name, square
from tests.emulators.usb_host import UsbHost
from tests.reports import BOOT_BYTES


def typed(mounted: Mounted, *keys: str, bench: Mounted | None = None) -> list[str]:
    """Return the keys that the host sees down while `keys` are closed.

    The switches and diodes are those of `bench`, or else of the file that the firmware is made of.
    """
    with board(image_of(mounted, "gcc"), bench or mounted) as running:
        host = UsbHost(running)
        host.enumerate()
        for key in keys:
            running.close_key(key)
        last = host.poll(8 + len(keys))[-1:]
    bits = int.from_bytes(last[0][BOOT_BYTES:], "little") if last else 0
    names = [key_name(row, column) for row in range(3) for column in range(3)]
    return [name for place, name in enumerate(names) if bits >> (4 + place) & 1]


@pytest.mark.parametrize("drive", ["row", "column"])
def test_with_diodes_three_corners_of_a_rectangle_are_just_three_keys(drive: Axis) -> None:
    keys = ["K00", "K01", "K10"]
    assert typed(square(3, drive=drive), *keys) == keys


def test_without_diodes_three_corners_make_a_phantom_of_the_fourth() -> None:
    keys = ("K00", "K01", "K10")
    mounted = square(3, without_diode=[*keys, "K11"])
    assert typed(mounted, *keys) == ["K00", "K01", "K10", "K11"]


def test_one_missing_diode_is_enough_for_a_phantom_through_it() -> None:
    """Columns are driven: from row 1 over K10 to column 0, back over K00, over K01 to column 1."""
    mounted = square(3, without_diode=["K00"])
    assert typed(mounted, "K00", "K01", "K10") == ["K00", "K01", "K10", "K11"]
    assert typed(mounted, "K01", "K11", "K10") == ["K01", "K10", "K11"]


def test_a_reversed_diode_hides_its_key() -> None:
    mounted = square(3, reversed_keys=["K11"])
    assert typed(mounted, "K11", "K22") == ["K22"]


@pytest.mark.parametrize(("drive", "band"), [("column", "row"), ("row", "column")])
def test_bands_said_the_other_way_and_every_key_reversed_are_the_same_bench(
    drive: Axis, band: Axis
) -> None:
    names = [key_name(row, column) for row in range(3) for column in range(3)]
    said = square(3, drive=drive, band=band, reversed_keys=names)
    assert typed(said, *names, bench=square(3, drive=drive)) == names


def test_a_lone_reversed_key_is_seen_where_the_other_keys_have_no_diode() -> None:
    names = [key_name(row, column) for row in range(3) for column in range(3)]
    bare = [name for name in names if name != "K11"]
    said = square(3, band="row", reversed_keys=["K11"], without_diode=bare)
    bench = square(3, without_diode=bare)
    assert typed(said, "K11", "K22", bench=bench) == ["K11", "K22"]
