"""Keys that go by modifiers, or by how often they are pressed, on emulated chips.

No example has such keys; the model and the host build are compared with them in `tests/firmware`.
"""

from __future__ import annotations

import pytest

from matrixgen.families import CompilerKind
from tests.emulators.images import image_of
from tests.emulators.keyboards import pad_on
from tests.emulators.test_line_sets import COMPILERS, plugged_in
from tests.reports import any_number

PAD = """
keyboard "Several meanings"
  controller CHIP

plate
  line A S E T

wiring
  drive rows, sense columns
  diodes 1N4148, band toward rows
  row    r  on P0  A to T
  column c0 on P1  A
  column c1 on P2  S
  column c2 on P3  E
  column c3 on P4  T

layer base
  S = Shift  E = Backspace, with Shift Delete
  T = first Esc, second Tab, third hold layer upper, within 120 ms

layer upper
  A = 1
"""

A, ONE, ESCAPE, BACKSPACE, TAB, DELETE = 0x04, 0x1E, 0x29, 0x2A, 0x2B, 0x4C
SHIFT = 0x02
UP, SHIFTED = any_number(0), any_number(SHIFT)


@pytest.mark.chips_in_turn
@pytest.mark.parametrize("kind", COMPILERS)
@pytest.mark.parametrize("chip", ["at90usb162", "atmega32u4", "rp2040"])
def test_a_chip_does_what_the_model_says(chip: str, kind: CompilerKind) -> None:
    mounted = pad_on(chip, PAD)
    with plugged_in(image_of(mounted, kind), mounted) as (board, host):

        def seen(*steps: str | int) -> list[bytes]:
            """Press and release keys, wait milliseconds, and return the reports meanwhile."""
            reports: list[bytes] = []
            for step in steps:
                if isinstance(step, int):
                    reports += host.poll(step)
                else:
                    (board.close_key if step[0] == "+" else board.open_key)(step[1:])
            return reports

        assert seen("+E", 9, "-E", 12) == [any_number(0, BACKSPACE), UP]
        assert seen("+S", 9, "+E", 9) == [SHIFTED, UP, any_number(0, DELETE)]
        assert seen("+A", 9) == [SHIFTED, any_number(SHIFT, A)]
        assert seen("-A", 12, "-E", 12, "-S", 12) == [SHIFTED, UP]

        tap = ("+T", 20, "-T", 20)
        assert seen(*tap, 60) == []
        assert seen(40) == [any_number(0, ESCAPE), UP]
        assert seen(*tap, *tap, 120) == [any_number(0, TAB), UP]
        assert seen(*tap, *tap, "+T", 20, "+A", 9) == [any_number(0, ONE)]
        assert seen("-T", 12, "-A", 12) == [UP]
