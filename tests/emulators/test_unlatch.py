"""`unlatch layers` on emulated chips: latched layers end, as do those of `once`; a held one stays.

No example has such a key; the model and the host build are compared with it in `tests/firmware`.
"""

from __future__ import annotations

import pytest

from matrixgen.families import CompilerKind
from tests.emulators.images import image_of
from tests.emulators.keyboards import pad_on
from tests.emulators.test_line_sets import COMPILERS, down_after, plugged_in

PAD = """
keyboard "Unlatch pad"
  controller CHIP

plate
  line A L O H U

wiring
  drive rows, sense columns
  diodes 1N4148, band toward rows
  row    r  on P0  A to U
  column c0 on P1  A
  column c1 on P2  L
  column c2 on P3  O
  column c3 on P4  H
  column c4 on P5  U

layer base
  L = latch layer one  O = once layer two  H = hold layer three  U = unlatch layers

layer one
  A = 1

layer two
  A = 2

layer three
  A = 3
"""

A, ONE, TWO, THREE = 0x04, 0x1E, 0x1F, 0x20


@pytest.mark.chips_in_turn
@pytest.mark.parametrize("kind", COMPILERS)
@pytest.mark.parametrize("chip", ["at90usb162", "atmega32u4", "rp2040"])
def test_a_key_ends_what_stays_on_by_itself(chip: str, kind: CompilerKind) -> None:
    mounted = pad_on(chip, PAD)
    with plugged_in(image_of(mounted, kind), mounted) as (board, host):

        def press(*keys: str) -> None:
            for key in keys:
                board.close_key(key)
                host.poll(8)
                board.open_key(key)
                host.poll(12)

        def typed() -> int:
            board.close_key("A")
            down = down_after(host)
            board.open_key("A")
            host.poll(12)
            return down.bit_length() - 1

        press("L")
        assert typed() == ONE
        press("U")
        assert typed() == A
        press("O", "U")
        assert typed() == A
        press("L", "O")
        assert (typed(), typed()) == (TWO, ONE)
        board.close_key("H")
        host.poll(8)
        press("U")
        assert typed() == THREE
        board.open_key("H")
        host.poll(12)
        assert typed() == A
