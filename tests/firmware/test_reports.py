"""The first eight bytes of any report are the boot report, whatever is down.

HID 1.11 appendix B: what a set-up screen reads that knows no report descriptors.
"""

from __future__ import annotations

from random import Random

import pytest

from tests.firmware.host_build import COMPILERS
from tests.firmware.pads import square_board
from tests.reports import BOOT_BYTES, REPORT_BYTES


@pytest.fixture(params=COMPILERS)
def board(request, started):
    return started(square_board, request.param)


@pytest.mark.parametrize("seed", range(10))
def test_any_report_begins_with_the_boot_report(board, seed):
    chance, keys = Random(seed), list(board.crossings)
    for _ in range(400):
        board.close(chance.choice(keys), chance.random() < 0.6)
        board.step()
        board.advance(chance.randrange(4))
        whole = board.current(boot=False)
        assert (len(whole), whole[:BOOT_BYTES]) == (REPORT_BYTES, board.current(boot=True))
        given = board.take()
        assert given is None or len(given) == REPORT_BYTES
