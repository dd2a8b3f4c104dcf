"""Every crossing of matrices of 8, 16 and 32 sensed lines, and of one more, up to 32 x 32.

Built for this computer. What an `int` of 16 bits makes of the same is tried on the chips, by
`tests/emulators/test_line_sets.py`.
"""

from __future__ import annotations

import pytest

from matrixgen.model import Keyboard, Press
from tests.firmware.build_model import keyboard
from tests.firmware.host_build import COMPILERS, HostKeyboard, host_view, shared_library
from tests.reports import BOOT_BYTES, FIRST_USAGE, NOTHING_DOWN, PLAIN_USAGES

OPEN_MS = 6


def board_of(sensed: int, driven: int) -> Keyboard:
    """Rows are sensed. Key n presses usage 4 + n, up to the last plain one, and then again."""
    rows = [[f"K{row}-{column}" for column in range(driven)] for row in range(sensed)]
    keys = [key for row in rows for key in row]
    base = {key: Press(FIRST_USAGE + n % PLAIN_USAGES) for n, key in enumerate(keys)}
    return keyboard(rows, {"base": base})


@pytest.mark.few(2)
@pytest.mark.parametrize(
    ("sensed", "driven", "compiler"),
    [(8, 32, "gcc"), (9, 1, "clang"), (16, 32, "clang"), (17, 1, "gcc"), (24, 5, "gcc")]
    + [(32, 32, compiler) for compiler in COMPILERS],
)
def test_every_key_is_itself_and_no_other(sensed, driven, compiler, tmp_path) -> None:
    board = board_of(sensed, driven)
    host = HostKeyboard(shared_library(board, tmp_path, compiler), host_view(board))
    for number, key in enumerate(key.name.text for key in board.keys):
        host.close(key, True)
        assert host.step()
        down = host.take()
        assert down is not None
        assert (
            int.from_bytes(down[BOOT_BYTES:], "little") == 1 << FIRST_USAGE + number % PLAIN_USAGES
        ), key
        host.close(key, False)
        host.step()
        host.advance(OPEN_MS)
        host.step()
        assert host.take() == NOTHING_DOWN
    assert host.faults() == 0
