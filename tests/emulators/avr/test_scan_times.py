"""A scan waits as long as the lines need, although it counts the cycles of its own instructions.

One sensed port, so that the comparison between two lines is as short as it can be. Emulated.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest

from matrixgen.families import FAMILIES, CompilerKind
from matrixgen.model import Number
from matrixgen.record import changed
from tests.emulators.avr.board import AvrBoard, board
from tests.emulators.images import image_of
from tests.emulators.keyboards import SPAN, square
from tests.examples.shipped import COMPILERS

DDR_D, PORT_D = 0x2A, 0x2B
LOW_US = FAMILIES["avr"].low_ns / 1000
SIZE = 4
"""Driven lines, on PD0 and after; sensed are PB0 and after."""


def edges(chip: AvrBoard, cycles: int) -> Iterator[tuple[int, bool]]:
    """Yield when a driven line goes low, and when it is no longer so, to the cycle."""
    end, was_low = chip.cycles + cycles, some_line_is_low(chip)
    while chip.cycles < end:
        chip.run_exactly(1)
        is_low = some_line_is_low(chip)
        if is_low != was_low:
            yield chip.cycles, is_low
            was_low = is_low


def some_line_is_low(chip: AvrBoard) -> bool:
    driven = chip.peek(DDR_D) & ((1 << SIZE) - 1)
    return bool(driven & ~chip.peek(PORT_D))


@pytest.mark.few(3)
@pytest.mark.parametrize("kind", COMPILERS)
@pytest.mark.parametrize("settle_us", [1, 2, 5])
def test_each_line_is_low_and_then_free_for_long_enough(settle_us: int, kind: CompilerKind) -> None:
    mounted = square(SIZE, drive="column")
    wiring = changed(mounted.keyboard.wiring, settle_us=Number(settle_us, SPAN))
    mounted = changed(mounted, keyboard=changed(mounted.keyboard, wiring=wiring))
    with board(image_of(mounted, kind), mounted) as chip:
        chip.wait(5)
        chip.close_key("K00")  # which is read again, and so are the lines after its own
        moments = list(edges(chip, 8 * chip.cycles_per_ms // 10))
    us = chip.cycles_per_ms / 1000
    while not moments[0][1]:
        del moments[0]
    times = [(low, after - at) for (at, low), (after, _) in pairwise(moments)]
    assert len(times) > 8 * SIZE
    shortest_low, shortest_free = (
        min(time for was_low, time in times if was_low is low) for low in (True, False)
    )
    assert LOW_US * us <= shortest_low < (LOW_US + 1) * us
    assert settle_us * us <= shortest_free < (settle_us + 1) * us
